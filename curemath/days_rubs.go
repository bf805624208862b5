package curemath

// AfterRub counts days from the last rub of a box cure: what goes on then needs its days
// too (common practice, no source). Day is that rub's, counted from the first.
func (d Days) AfterRub(day int) Days {
	if day <= 0 {
		return d
	}
	l := newLedger(1)
	l.step("Counted from the last rub", practice()).say(daysSaid(d.Min, d.Max)).say(" from day ").figure(float64(day), 0).say(": ").say(daysSaid(d.Min+day, d.Max+day))
	d.Min, d.Max = d.Min+day, d.Max+day
	d.Trail = append(d.Trail[:len(d.Trail):len(d.Trail)], l.trail()...)
	return d
}
