package curemath

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// Check values of the three shapes, printed to six places. Source: Crank, The
// Mathematics of Diffusion (1975), plane sheet, series summed to more than 2,000
// terms.
func TestConstantSurfaceAgainstCrank(t *testing.T) {
	rows := []struct{ fo, mean, centre float64 }{
		{0.05, 0.252313, 0.003131},
		{0.1, 0.356823, 0.050695},
		{0.2, 0.504088, 0.227688},
		{0.5, 0.763950, 0.629223},
		{1.0, 0.931260, 0.892023},
	}
	for _, r := range rows {
		sixPlaces(t, fmt.Sprintf("mean at Fo %g", r.fo), constantSheet{}.mean(r.fo), r.mean)
		sixPlaces(t, fmt.Sprintf("centre at Fo %g", r.fo), constantSheet{}.at(r.fo, 0), r.centre)
	}
	sixPlaces(t, "mean 0.9", constantSheet{}.mean(0.848085), 0.9)
	sixPlaces(t, "centre 0.8", constantSheet{}.at(0.750183, 0), 0.8)
	sixPlaces(t, "centre 0.9", constantSheet{}.at(1.031105, 0), 0.9)
}

func TestLimitedVolumeAgainstCrank(t *testing.T) {
	fos := [5]float64{0.05, 0.1, 0.2, 0.5, 1}
	rows := []struct {
		alpha   float64
		roots   [3]float64
		uptake  [5]float64
		centres [5]float64
	}{
		{0.1, [3]float64{2.862773, 5.760558, 8.708314},
			[5]float64{0.844441, 0.912360, 0.963660, 0.996908, 0.999949},
			[5]float64{0.018265, 0.210307, 0.626420, 0.967841, 0.999466}},
		{0.25, [3]float64{2.570432, 5.354032, 8.302929},
			[5]float64{0.677192, 0.794080, 0.899078, 0.986187, 0.999492},
			[5]float64{0.011601, 0.154127, 0.527752, 0.934325, 0.997586}},
		{0.5, [3]float64{2.288930, 5.086985, 8.096164},
			[5]float64{0.534318, 0.669588, 0.811719, 0.961118, 0.997168},
			[5]float64{0.008004, 0.115421, 0.436750, 0.881819, 0.991392}},
		{1, [3]float64{2.028758, 4.913180, 7.978666},
			[5]float64{0.419246, 0.552841, 0.711628, 0.916467, 0.989331},
			[5]float64{0.005764, 0.087606, 0.356664, 0.811068, 0.975869}},
		{2, [3]float64{1.836597, 4.815842, 7.917053},
			[5]float64{0.343904, 0.468300, 0.628179, 0.865276, 0.975055},
			[5]float64{0.004502, 0.070524, 0.300435, 0.743568, 0.952519}},
	}
	for _, r := range rows {
		s := newLimitedSheet(r.alpha)
		for i, q := range r.roots {
			sixPlaces(t, fmt.Sprintf("alpha %g root %d", r.alpha, i+1), s.modes[i].q, q)
		}
		for i, fo := range fos {
			sixPlaces(t, fmt.Sprintf("alpha %g uptake at Fo %g", r.alpha, fo), s.mean(fo), r.uptake[i])
			sixPlaces(t, fmt.Sprintf("alpha %g centre at Fo %g", r.alpha, fo), s.at(fo, 0), r.centres[i])
		}
	}
}

func TestFixedDoseAgainstCrank(t *testing.T) {
	rows := []struct{ fo, centre, surface float64 }{
		{0.05, 0.034001, 2.523133},
		{0.1, 0.292900, 1.784286},
		{0.2, 0.722922, 1.278567},
		{0.3, 0.896468, 1.103561},
		{0.5, 0.985616, 1.014384},
		{1.0, 0.999897, 1.000103},
	}
	for _, r := range rows {
		sixPlaces(t, fmt.Sprintf("centre at Fo %g", r.fo), doseSheet{}.at(r.fo, 0), r.centre)
		sixPlaces(t, fmt.Sprintf("surface at Fo %g", r.fo), doseSheet{}.at(r.fo, 1), r.surface)
	}
	for centre, fo := range map[float64]float64{0.8: 0.233199, 0.9: 0.303518, 0.95: 0.373760, 0.99: 0.536832} {
		// The Fourier number is printed to six places, the slope there is below 4.
		if got := (doseSheet{}).at(fo, 0); math.Abs(got-centre) > 3e-6 {
			t.Errorf("centre at Fo %g = %.7f, want %g", fo, got, centre)
		}
	}
}

func sixPlaces(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s = %.7f, want %.6f", what, got, want)
	}
}

// crankNicolson steps du/dfo = d²u/dx² on cells between the sealed side (first)
// and the open face (last), beside a stirred bath of volume alpha. A bath of
// volume 0 is a dose wholly inside the last cell at the start. It knows nothing
// of series or images. Answer: cells as a share of the final state.
func crankNicolson(alpha, fo float64, cells, steps int, constant bool) []float64 {
	h, dt := 1/float64(cells), fo/float64(steps)
	n := cells + 1 // the last unknown is the bath
	a := mat.NewTridiag(n, nil, nil, nil)
	flux := func(i, j int, conductance, volume float64) {
		a.SetBand(i, j, a.At(i, j)+conductance/volume)
		a.SetBand(i, i, a.At(i, i)-conductance/volume)
	}
	for i := range cells - 1 {
		flux(i, i+1, 1/h, h)
		flux(i+1, i, 1/h, h)
	}
	if constant || alpha > 0 {
		flux(cells-1, cells, 2/h, h)
	}
	if alpha > 0 && !constant {
		flux(cells, cells-1, 2/h, alpha)
	}
	u := make([]float64, n)
	switch {
	case constant:
		u[cells] = 1
	case alpha == 0:
		u[cells-1] = 1 / h
	default:
		u[cells] = (1 + alpha) / alpha
	}
	// The first steps are backward Euler, which damps the jump at the face.
	const damped = 8
	var left *mat.Tridiag
	theta := 1.0
	rhs := mat.NewVecDense(n, nil)
	for k := range steps {
		if k == damped {
			theta = 0.5
		}
		if k == 0 || k == damped {
			left = mat.NewTridiag(n, nil, nil, nil)
			for i := range n {
				for j := max(0, i-1); j <= min(n-1, i+1); j++ {
					left.SetBand(i, j, -theta*dt*a.At(i, j))
				}
				left.SetBand(i, i, 1+left.At(i, i))
			}
		}
		for i := range n {
			sum := u[i]
			for j := max(0, i-1); j <= min(n-1, i+1); j++ {
				sum += (1 - theta) * dt * a.At(i, j) * u[j]
			}
			rhs.SetVec(i, sum)
		}
		var next mat.VecDense
		if err := left.SolveVecTo(&next, false, rhs); err != nil {
			panic(err)
		}
		copy(u, next.RawVector().Data)
	}
	return u[:cells]
}

func TestSheetsAgainstFiniteDifferences(t *testing.T) {
	const cells, steps = 400, 1200
	cases := []struct {
		name     string
		sheet    sheet
		alpha    float64
		constant bool
	}{
		{"constant surface", constantSheet{}, 0, true},
		{"limited 0.1", newLimitedSheet(0.1), 0.1, false},
		{"limited 0.7", newLimitedSheet(0.7), 0.7, false},
		{"limited 5", newLimitedSheet(5), 5, false},
		{"fixed dose", doseSheet{}, 0, false},
	}
	for _, c := range cases {
		for _, fo := range []float64{0.04, 0.12, 0.45} {
			u := crankNicolson(c.alpha, fo, cells, steps, c.constant)
			for i := 0; i < cells; i += 13 {
				x := (float64(i) + 0.5) / cells
				if got := c.sheet.at(fo, x); math.Abs(got-u[i]) > 1e-4 {
					t.Errorf("%s Fo %g x %.3f: %.6f, finite differences %.6f", c.name, fo, x, got, u[i])
				}
			}
		}
	}
}

// The mean must be the quadrature of the profile, and the two forms must meet
// where one hands over to the other.
func TestSheetMeanIsTheIntegralOfTheProfile(t *testing.T) {
	for _, s := range []sheet{constantSheet{}, newLimitedSheet(0.3), newLimitedSheet(4), doseSheet{}} {
		for _, fo := range []float64{0.002, 0.01, shortTime * 0.999, shortTime * 1.001, 0.3, 2} {
			// Fine panels near the face, where the early profile is steep.
			total := 0.0
			for _, panel := range [][2]float64{{0, 0.5}, {0.5, 0.8}, {0.8, 0.95}, {0.95, 1}} {
				total += quad.Fixed(func(x float64) float64 { return s.at(fo, x) }, panel[0], panel[1], 60, quad.Legendre{}, 0)
			}
			if got := s.mean(fo); math.Abs(got-total) > 1e-9 {
				t.Errorf("%T Fo %g: mean %.12f, quadrature %.12f", s, fo, got, total)
			}
		}
	}
}

func TestSheetFormsMeet(t *testing.T) {
	cases := []struct {
		s    sheet
		join float64
	}{{constantSheet{}, shortTime}, {doseSheet{}, shortTime}, {newLimitedSheet(0.05), limitedShort}, {newLimitedSheet(1), limitedShort}, {newLimitedSheet(30), limitedShort}}
	for _, c := range cases {
		for _, x := range []float64{0, 0.3, 0.9, 0.99, 1} {
			before, after := c.s.at(c.join*(1-1e-12), x), c.s.at(c.join*(1+1e-12), x)
			if math.Abs(before-after) > 1e-9*max(1, after) {
				t.Errorf("%T x %g: %.12f before the hand-over, %.12f after", c.s, x, before, after)
			}
		}
		before, after := c.s.mean(c.join*(1-1e-12)), c.s.mean(c.join*(1+1e-12))
		if math.Abs(before-after) > 1e-9 {
			t.Errorf("%T mean: %.12f before the hand-over, %.12f after", c.s, before, after)
		}
	}
}

// A limited brine without end is the constant surface; one without water is the
// fixed dose.
func TestLimitedVolumeEndsInTheOtherTwo(t *testing.T) {
	for _, fo := range []float64{0.05, 0.2, 0.6} {
		if got, want := newLimitedSheet(1e5).at(fo, 0), (constantSheet{}).at(fo, 0); math.Abs(got-want) > 1e-4 {
			t.Errorf("Fo %g: alpha 1e5 centre %.6f, constant surface %.6f", fo, got, want)
		}
		if got, want := newLimitedSheet(1e-5).at(fo, 0), (doseSheet{}).at(fo, 0); math.Abs(got-want) > 1e-4 {
			t.Errorf("Fo %g: alpha 1e-5 centre %.6f, fixed dose %.6f", fo, got, want)
		}
	}
}

func TestSheetsAreFiniteAndNeverFall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]sheet{constantSheet{}, doseSheet{}, newLimitedSheet(0.01), newLimitedSheet(1), newLimitedSheet(100)}).Draw(t, "sheet")
		early := rapid.Float64Range(0, 3).Draw(t, "fo")
		later := early + rapid.Float64Range(0, 3).Draw(t, "more")
		if a, b := s.at(early, 0), s.at(later, 0); a > b+1e-12 || math.IsNaN(a) || a < -1e-12 || b > 1+1e-12 {
			t.Fatalf("%T centre %g at Fo %g, %g at %g", s, a, early, b, later)
		}
		if a, b := s.mean(early), s.mean(later); a > b+1e-12 || math.IsNaN(a) || b > 1+1e-12 {
			t.Fatalf("%T mean %g at Fo %g, %g at %g", s, a, early, b, later)
		}
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		if v := s.at(early, x); math.IsNaN(v) || math.IsInf(v, 0) || v < -1e-9 {
			t.Fatalf("%T at Fo %g x %g = %g", s, early, x, v)
		}
	})
}
