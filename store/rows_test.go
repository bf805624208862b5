package store

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// An instant reads back to the millisecond as it was kept, none as none; what is no
// number of milliseconds is refused rather than read as some other time.
func TestInstantsReadBackAsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kept := time.UnixMilli(rapid.Int64Range(1, 1<<42).Draw(t, "milliseconds"))
		var read time.Time
		if err := instant(&read).Scan(toMillis(kept)); err != nil || !read.Equal(kept) {
			t.Fatalf("%v reads back as %v (%v)", kept, read, err)
		}
		if err := instant(&read).Scan(toMillis(time.Time{})); err != nil || !read.IsZero() {
			t.Fatalf("none reads back as %v (%v)", read, err)
		}
	})
	for _, v := range []any{nil, "2027-03-01", 1.5, []byte("x")} {
		read := time.UnixMilli(7)
		if err := instant(&read).Scan(v); err == nil || !read.Equal(time.UnixMilli(7)) {
			t.Errorf("%v (%T) reads as %v", v, v, read)
		}
	}
}
