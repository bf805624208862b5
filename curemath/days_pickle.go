package curemath

import "math"

// The handbook's days in sweet pickle: USDA farm pork handbook, found: a belly of 10 lb
// about 15 days, heavier ones 21.
const (
	pickleBelly             = 10 * Pound
	pickleBellyDays float64 = 15
	pickleHeavyDays float64 = 21
)

// DaysFor gives the days of a belly in a cure of some method: by its thickness, as for 2
// inches where that is not known, and in a brine by its weight too. Errors are *Refusal.
// Source: see DayRule and InPickle, second-hand and found.
func DaysFor(m Method, thick Millimetres, rindOn bool, green Grams) (Days, error) {
	days := DaysUnknown(rindOn)
	if thick > 0 {
		var err error
		if days, err = DayRule(thick, rindOn); err != nil {
			return days, err
		}
	}
	if m == Immersion {
		days = days.InPickle(green)
	}
	return days, nil
}

// InPickle holds days by thickness to the handbook's days for a belly of that weight in a
// pickle, and takes the longer: 15 for 10 lb, in proportion for a lighter one (computed),
// 21 for a heavier. Source: USDA farm pork handbook.
func (d Days) InPickle(green Grams) Days {
	l := newLedger(2)
	source := Source{Document: "USDA farm pork handbook, sweet pickle", Status: Found}
	days := pickleHeavyDays
	if green <= pickleBelly {
		days = pickleBellyDays * float64(green/pickleBelly)
		l.step("In a pickle, 15 days for a belly of 10 lb", source).figure(green.Pounds(), 2).say(" lb ÷ 10 lb × 15 = ").figure(days, 1).say(" days")
	} else {
		l.step("In a pickle, a belly over 10 lb", source).figure(days, 0).say(" days")
	}
	if least := int(math.Ceil(days - 1e-9)); least > d.Min {
		d.Max += least - d.Min
		d.Min = least
	}
	l.step("Taken, the longer", practice()).say(daysSaid(d.Min, d.Max))
	d.Trail = append(d.Trail[:len(d.Trail):len(d.Trail)], l.trail()...)
	return d
}
