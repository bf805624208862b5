package curemath

import "math"

// Supply says where the salt comes from. The zero value is the fixed weighed
// dose, the one to use for a weighed dry cure in a tight bag.
type Supply struct {
	kind  SupplyKind
	alpha float64
}

// SupplyKind names the three shapes of supply.
type SupplyKind int

const (
	// SupplyFixedDose is all the cure on the faces at the start (model C).
	SupplyFixedDose SupplyKind = iota
	// SupplyLimitedBrine is a brine that weakens as the slab takes it up (model B).
	SupplyLimitedBrine
	// SupplyConstantSurface is a brine so large that it stays as strong as it
	// began, or a salt box (model A).
	SupplyConstantSurface
)

// FixedDose is the supply of a weighed dry cure.
func FixedDose() Supply { return Supply{kind: SupplyFixedDose} }

// ConstantSurface is the supply of a large brine of steady strength.
func ConstantSurface() Supply { return Supply{kind: SupplyConstantSurface} }

// Bounds of alpha for LimitedBrine: outside them one of the other two supplies
// is the same thing.
const (
	leastAlpha = 0.01
	mostAlpha  = 100
)

// LimitedBrine is the supply of a brine in which the slab is not small. Alpha is
// the water of the brine over the water of the meat, since salt ends equally
// strong in both waters (Crank's alpha for a sheet in a limited volume, with the
// water share as partition). Meat water is counted as 75 % of lean and 10 % of
// fat: second-hand. An alpha under 0.01 comes back as the fixed dose, one over
// 100 as the constant surface. A weight that is not above zero is an error.
func LimitedBrine(brineWater, meat Grams, fat Percent) (Supply, error) {
	if err := checkFat(fat); err != nil {
		return Supply{}, err
	}
	if !positive(float64(brineWater)) || !positive(float64(meat)) {
		return Supply{}, ProgressError{Kind: ProgressBadWeight}
	}
	share := fat.Proportion()
	alpha := float64(brineWater/meat) / (0.75*(1-share) + 0.10*share)
	switch {
	case alpha < leastAlpha:
		return FixedDose(), nil
	case alpha > mostAlpha:
		return ConstantSurface(), nil
	}
	return Supply{kind: SupplyLimitedBrine, alpha: alpha}, nil
}

// Kind tells which of the shapes this is.
func (s Supply) Kind() SupplyKind { return s.kind }

// Alpha is the water of the brine over the water of the meat; 0 unless the
// supply is a limited brine.
func (s Supply) Alpha() float64 { return s.alpha }

func (s Supply) sheet() sheet {
	switch s.kind {
	case SupplyLimitedBrine:
		return newLimitedSheet(s.alpha)
	case SupplyConstantSurface:
		return constantSheet{}
	}
	return doseSheet{}
}

// positive is true of a finite number above zero.
func positive(v float64) bool { return v > 0 && !math.IsInf(v, 1) }
