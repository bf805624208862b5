package bot

import (
	"fmt"

	"larderhand/bot/course"
	"larderhand/curemath"
)

// cureMoney is what the cure of a batch cost by the prices its keeper last paid, as
// far as they are known.
func (t *Turn) cureMoney(s course.State) (curemath.Money, error) {
	on, err := t.shelf(s.Keeper)
	if err != nil {
		return 0, err
	}
	var total curemath.Money
	for item, g := range takes(s.Batch) {
		if price, ok := on.price[item]; ok {
			total += price.For(g)
		}
	}
	return total, nil
}

// spent is what a batch cost, the belly and what is known of its cure; ok is false
// where nobody told what the belly cost.
func (t *Turn) spent(s course.State) (amount curemath.Money, currency string, ok bool) {
	amount, currency, ok = paid(s)
	if !ok {
		return amount, currency, false
	}
	cure, err := t.cureMoney(s)
	if err != nil { // the belly alone is nearly all of it
		return amount, currency, true
	}
	return amount + cure, currency, true
}

// withCure says what the cure adds, or "".
func (t *Turn) withCure(s course.State) string {
	belly, currency, ok := paid(s)
	all, _, _ := t.spent(s)
	if !ok || all-belly < 0.005 {
		return ""
	}
	return fmt.Sprintf("With the cure from your cupboard (%.2f): %s.", float64(all-belly), money(all, currency))
}
