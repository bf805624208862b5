package course

import "testing"

func TestOrderIsThatOfTheSteps(t *testing.T) {
	steps := Steps()
	if len(steps) != len(order()) {
		t.Fatalf("%d steps are described, %d are in order", len(steps), len(order()))
	}
	for i, step := range order() {
		if steps[i].Step != step {
			t.Errorf("step %d is %q in order and %q as described", i, step, steps[i].Step)
		}
	}
}
