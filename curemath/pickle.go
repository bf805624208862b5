package curemath

// Pickle is a brine, all in: water and everything dissolved in it.
type Pickle struct {
	Water Grams
	Portion
	// Other is what is in it besides: spice, juice solids.
	Other Grams
}

// Weight is the weight of the pickle, all in, as the handbook counts it.
func (p Pickle) Weight() Grams {
	return p.Water + p.Mix + p.Salt + p.Sugar + p.Ascorbate + p.Other
}

// Bounds and habits of wet cures.
const (
	// AssumedPickup is what is reckoned with until the meat has been weighed
	// before and after: the high end of the 3 to 10 % a home brine gives
	// (common practice, no source), which is the cautious end for the limit.
	AssumedPickup Percent = 10
	lowPickup     Percent = 3
	maxPickup     Percent = 40
	// CoverWater is how much water covers a belly in a snug tub or bag, as
	// percent of the meat (common practice, no source).
	CoverWater Percent = 50
	// saturated is about the most salt a cold brine holds, by mass (from
	// memory: 26.4 % at 20 °C).
	saturated Percent = 26
)

// PickupOf gives what a piece took up, from its weight before and after:
// (after − before) ÷ before (computed). It refuses weights that show a loss.
func PickupOf(before, after Grams) (Percent, error) {
	if err := checkWeight("weight before", before, MinWeight); err != nil {
		return 0, err
	}
	if err := checkWeight("weight after", after, MinWeight); err != nil {
		return 0, err
	}
	p := shareOn(after-before, before)
	return p, checkShare(PumpOutOfRange, "pick-up", p, 0, maxPickup)
}

// taken is the pick-up as a proportion of the green weight, never more than
// there is pickle to take.
func taken(p Percent, pickle, green Grams) float64 {
	return min(p.Proportion(), float64(pickle/green))
}

func (w *warnings) dissolves(p Pickle, m Mix) {
	salt := p.Salt + m.Salt().Of(p.Mix)
	share := shareOn(salt, salt+p.Water)
	if share <= saturated {
		return
	}
	w.add(WarnBrineWontDissolve, Source{Document: "salt in cold water", Status: FromMemory}, about("This pickle is ").
		figure(float64(share), 1).say(" % salt; cold water holds about ").figure(float64(saturated), 0).
		say(" %, so some will not dissolve. Use more water, a higher pump, or a mix with more nitrite in it."))
}
