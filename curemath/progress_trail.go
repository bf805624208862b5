package curemath

import "time"

func crank(section string) Source {
	return Source{Document: "Crank, The Mathematics of Diffusion", Section: "(" + section + ")", Date: "2nd ed. 1975", Status: Computed}
}

func saltDiffusivitySource() Source {
	return Source{
		Document: "planning range for lean pork at fridge temperature",
		Status:   FromMemory,
		Note:     "scaled down from 3–7 × 10⁻¹⁰ m²/s in Meat Science 80 (2008) 851–856",
	}
}

func fatSlowingSource() Source {
	return Source{Document: "salt in back fat, several to ten times slower than in lean", Status: FromMemory}
}

// trail writes out the typical case; low and high differ in the diffusivity.
func (k cureClock) trail(elapsed time.Duration) Trail {
	slab := k.course.Slab
	path := float64(slab.Thickness)
	l := newLedger(4)
	l.step("Way the salt has to go", crank("plane sheet"))
	if slab.Faces == BothFaces {
		path /= 2
		l.figure(float64(slab.Thickness), 1).say(" mm ÷ 2, both faces open = ").figure(path, 2).say(" mm")
	} else {
		l.figure(path, 1).say(" mm, the rind lets nothing in")
	}

	last := k.rates[len(k.rates)-1]
	metres := path / 1000
	perTen := metres * metres * 1e10
	l.step("Salt diffusivity at the last temperature", saltDiffusivitySource()).
		figure(last.typical*perTen, 2).say(" (").figure(last.low*perTen, 2).say("–").
		figure(last.high*perTen, 2).say(") × 10⁻¹⁰ m²/s at ").
		figure(float64(k.course.Temps[len(k.course.Temps)-1].Temp), 1).say(" °C")
	if slab.Fat > 0 {
		l.step("Fat share counted in it", fatSlowingSource()).share(slab.Fat)
	}

	fo := k.fourier(elapsed)
	r := k.centre(elapsed)
	l.step("Fourier number", crank("plane sheet")).
		say("D × ").figure(elapsed.Hours()/24, 2).say(" days ÷ (").figure(path, 2).say(" mm)² = ").figure(fo.typical, 4)
	l.step("Centre, share of where it ends ("+k.course.Supply.name()+")", crank(k.course.Supply.section())).
		figure(float64(r.Typical), 1).say(" % (").figure(float64(r.Low), 1).say("–").figure(float64(r.High), 1).say(" %), an estimate")
	return l.trail()
}

func (s Supply) name() string {
	switch s.kind {
	case SupplyLimitedBrine:
		return "limited brine, alpha " + figure(s.alpha, 3)
	case SupplyConstantSurface:
		return "constant surface"
	default:
		return "fixed weighed dose"
	}
}

func (s Supply) section() string {
	switch s.kind {
	case SupplyLimitedBrine:
		return "plane sheet in a stirred solution of limited volume"
	case SupplyConstantSurface:
		return "plane sheet with constant surface concentration"
	default:
		return "instantaneous source, reflected at the far side"
	}
}
