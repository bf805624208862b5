package curemath

import "math"

// Money is an amount in whatever currency the caller counts in.
type Money float64

// Price is an amount for a weight: 4.99 a pound is Price{4.99, Pound}.
type Price struct {
	Amount Money
	Per    Grams
}

// For is what a weight costs at the price.
func (p Price) For(g Grams) Money { return p.Amount * Money(g/p.Per) }

// Cost is what finished bacon costs by weight.
type Cost struct {
	Total                 Money
	PerPound, PerKilogram Money
	Trail                 Trail
}

// CostOf spreads everything paid (belly, cure, seasonings, wood) over the packed
// weight. Computed; a belly that loses a tenth costs a ninth more by weight.
// Errors are YieldError values.
func CostOf(total Money, packed Grams) (Cost, error) {
	if !(total >= 0) || math.IsInf(float64(total), 0) {
		return Cost{}, YieldError{Kind: YieldBadMoney}
	}
	if err := checkYieldWeight(packed); err != nil {
		return Cost{}, err
	}
	c := Cost{
		Total:       total,
		PerPound:    total * Money(Pound/packed),
		PerKilogram: total * Money(Kilogram/packed),
	}
	l := newLedger(1)
	l.step("Cost by weight", computed()).
		figure(float64(total), 2).say(" ÷ ").figure(packed.Kilograms(), 3).say(" kg = ").
		figure(float64(c.PerKilogram), 2).say(" a kg, ").figure(float64(c.PerPound), 2).say(" a lb")
	c.Trail = l.trail()
	return c, nil
}
