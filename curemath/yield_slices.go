package curemath

import "math"

// Slices is how a slab falls into slices.
type Slices struct {
	// Count is whole slices; 0 when only the cut face is known, not the slab.
	Count int
	// Each is the weight of one slice, low–typical–high. The three are the same
	// when the slab was weighed.
	Each GramsRange
	// PerPound and PerKilogram are slices by weight; low belongs to heavy slices.
	PerPound, PerKilogram CountRange
	Trail                 Trail
}

// GramsRange is a weight with its range.
type GramsRange struct{ Low, Typical, High Grams }

// CountRange is a number with its range.
type CountRange struct{ Low, Typical, High float64 }

// SlicesOfSlab counts the slices of a weighed slab cut across its length: length
// ÷ thickness of them, each an equal share of the weight. Computed; it takes the
// slab as even along its length and the ends as slices. Errors are YieldError
// values.
func SlicesOfSlab(slab Grams, length, thickness Millimetres) (Slices, error) {
	if err := checkYieldWeight(slab); err != nil {
		return Slices{}, err
	}
	if err := checkSlice(length, thickness); err != nil {
		return Slices{}, err
	}
	n := float64(length / thickness)
	each := slab / Grams(n)
	l := newLedger(2)
	l.step("Slices", computed()).
		figure(float64(length), 1).say(" mm ÷ ").figure(float64(thickness), 2).say(" mm = ").figure(n, 1)
	s := slicesEach(&l, GramsRange{each, each, each})
	s.Count = int(math.Floor(n + 1e-9))
	s.Trail = l.trail()
	return s, nil
}

// bellyDensity in g/mL, between fat (about 0.92) and lean (about 1.06): from
// memory.
func bellyDensity() (low, typical, high float64) { return 0.95, 1.00, 1.05 }

// SlicesOfFace reckons slices by weight from the face the knife cuts (the length
// of a slice and the thickness of the slab) and the thickness of a slice, with
// the density of belly as 0.95 to 1.05 g/mL, from memory. Errors are YieldError
// values.
func SlicesOfFace(sliceLength, slabThickness, thickness Millimetres) (Slices, error) {
	if err := checkSlice(sliceLength, thickness); err != nil {
		return Slices{}, err
	}
	if err := checkLength(slabThickness); err != nil {
		return Slices{}, err
	}
	millilitres := float64(sliceLength*slabThickness*thickness) / 1000
	low, typical, high := bellyDensity()
	each := GramsRange{Grams(millilitres * low), Grams(millilitres * typical), Grams(millilitres * high)}
	l := newLedger(2)
	l.step("One slice", Source{Document: "density of belly, 0.95–1.05 g/mL", Status: FromMemory}).
		figure(float64(sliceLength), 1).say(" × ").figure(float64(slabThickness), 1).say(" × ").figure(float64(thickness), 2).
		say(" mm × ").figure(typical, 2).say(" g/mL = ").figure(float64(each.Typical), 1).say(" g")
	s := slicesEach(&l, each)
	s.Trail = l.trail()
	return s, nil
}

func slicesEach(l *ledger, each GramsRange) Slices {
	by := func(unit Grams) CountRange {
		return CountRange{float64(unit / each.High), float64(unit / each.Typical), float64(unit / each.Low)}
	}
	s := Slices{Each: each, PerPound: by(Pound), PerKilogram: by(Kilogram)}
	l.step("Slices by weight", computed()).
		figure(s.PerPound.Typical, 1).say(" a lb, ").figure(s.PerKilogram.Typical, 1).say(" a kg")
	return s
}

func checkSlice(length, thickness Millimetres) error {
	if err := checkLength(length); err != nil {
		return err
	}
	if err := checkLength(thickness); err != nil {
		return err
	}
	// A hair is a tenth of a millimetre; nobody slices bacon thinner.
	if thickness < 0.1 || thickness > length {
		return YieldError{Kind: YieldBadLength}
	}
	return nil
}
