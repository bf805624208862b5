package curemath

// Band is a quantity that is not known exactly: as little, as it mostly is, as
// much. Low ≤ Typical ≤ High.
type Band[T ~float64] struct{ Low, Typical, High T }

// Exactly is a band without width.
func Exactly[T ~float64](v T) Band[T] { return Band[T]{v, v, v} }

// Between is a band from low to high with the middle as typical, in whichever
// order the ends come.
func Between[T ~float64](a, b T) Band[T] {
	return Band[T]{min(a, b), a + (b-a)/2, max(a, b)}
}

// Exact says whether the band has no width.
func (b Band[T]) Exact() bool { return b.Low == b.High }

// Times scales the band by a factor that is not negative.
func (b Band[T]) Times(k float64) Band[T] {
	return Band[T]{b.Low * T(k), b.Typical * T(k), b.High * T(k)}
}

// Plus adds two bands as if their doubts went the same way.
func (b Band[T]) Plus(c Band[T]) Band[T] {
	return Band[T]{b.Low + c.Low, b.Typical + c.Typical, b.High + c.High}
}

// at picks an end: 0 low, 1 typical, 2 high.
func (b Band[T]) at(end int) float64 {
	switch end {
	case 0:
		return float64(b.Low)
	case 2:
		return float64(b.High)
	default:
		return float64(b.Typical)
	}
}

// triple is a band as data files write it: [low, typical, high], or [v].
type triple []float64

func (t triple) ok() bool { return len(t) == 1 || len(t) == 3 && t[0] <= t[1] && t[1] <= t[2] }

func band[T ~float64](t triple) Band[T] {
	switch len(t) {
	case 1:
		return Exactly(T(t[0]))
	case 3:
		return Band[T]{T(t[0]), T(t[1]), T(t[2])}
	default:
		return Band[T]{}
	}
}
