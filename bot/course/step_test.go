package course

import "testing"

func TestOrderIsThatOfTheSteps(t *testing.T) {
	steps, inOrder := Steps(), order()
	if len(steps) != len(inOrder) {
		t.Fatalf("%d steps are described, %d are in order", len(steps), len(inOrder))
	}
	for i, step := range inOrder {
		if steps[i].Step != step {
			t.Errorf("step %d is %q in order and %q as described", i, step, steps[i].Step)
		}
	}
}
