package curemath

// Drying is a piece losing water: its weights, its loss, and the salt share the
// loss leaves behind.
type Drying struct {
	Start, Weight Grams
	Loss          Percent
	// Salt is the salt share at that weight: the salt stays, the water goes.
	Salt  Percent
	Trail Trail
}

// DryTo gives the weight to dry down to for a loss in percent of the start, and
// the salt share there: start × (1 − loss) and salt ÷ (1 − loss), computed.
// Dried whole cuts are commonly taken to 30–40 % (common practice, no source).
// Errors are YieldError values.
func DryTo(start Grams, loss, salt Percent) (Drying, error) {
	if err := checkYieldWeight(start); err != nil {
		return Drying{}, err
	}
	if err := checkLoss(loss); err != nil {
		return Drying{}, err
	}
	if !(salt >= 0 && salt <= 100) {
		return Drying{}, YieldError{Kind: YieldBadSalt}
	}
	kept := 1 - loss.Proportion()
	d := Drying{Start: start, Weight: start * Grams(kept), Loss: loss, Salt: min(100, salt/Percent(kept))}
	l := newLedger(2)
	l.step("Weight to dry to", computed()).
		grams(start).say(" × (1 − ").figure(loss.Proportion(), 4).say(") = ").grams(d.Weight)
	if salt > 0 {
		l.step("Salt share there", computed()).
			share(salt).say(" ÷ (1 − ").figure(loss.Proportion(), 4).say(") = ").figure(float64(d.Salt), 2).say(" %")
	}
	d.Trail = l.trail()
	return d, nil
}

// DryingSoFar gives the loss between two weights and the salt share now. A piece
// that gained is a YieldBadLoss. The formula is that of DryTo, computed.
func DryingSoFar(start, now Grams, salt Percent) (Drying, error) {
	if err := checkYieldWeight(start); err != nil {
		return Drying{}, err
	}
	if err := checkYieldWeight(now); err != nil {
		return Drying{}, err
	}
	d, err := DryTo(start, 100-percentOf(now, start), salt)
	if err != nil {
		return Drying{}, err
	}
	d.Weight = now
	return d, nil
}
