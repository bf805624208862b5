package safely_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"larderhand/scheduler/safely"
)

func TestDo(t *testing.T) {
	own := errors.New("the scale is off")
	if err := safely.Do("weighing", func() error { return own }); !errors.Is(err, own) || safely.Panicked(err) {
		t.Errorf("an error comes back as %v", err)
	}
	if err := safely.Do("weighing", func() error { return nil }); err != nil || safely.Panicked(err) {
		t.Errorf("success comes back as %v", err)
	}
	for _, v := range []any{"no belly", own, 7} {
		err := safely.Do("weighing", func() error { panic(v) })
		if !safely.Panicked(fmt.Errorf("batch 3: %w", err)) || !strings.HasPrefix(err.Error(), fmt.Sprintf("weighing panicked: %v\n", v)) || !strings.Contains(err.Error(), "safely_test.go") {
			t.Errorf("a panic over %v comes back as %v", v, err)
		}
	}
}
