package curemath

import "math"

// pitTrack is the pit temperature at even steps from the first core reading on,
// in °F.
type pitTrack []float64

const (
	// slabCells are the cells of half the slab, the middle first.
	slabCells = 6
	// stepHours is the step of the model.
	stepHours = 1.0 / 12
	// typicalHalf is half the thickness of a belly nobody measured, m.
	typicalHalf = 0.020
	// radiantGrowth is how much more heat a slab takes a °F of face and pit, if
	// about half of it is radiation (Stefan and Boltzmann's law at 130 °F).
	radiantGrowth = 0.0025
	// supplyGrowth: water moves quicker through warm meat (from memory).
	supplyGrowth = 0.016
	// firstDry is the evaporation, in °F of cooling of the slab, that supply is
	// given for.
	firstDry = 30.0
	// psychrometric is the psychrometric constant, Pa a °F (65 Pa/K, from memory).
	psychrometric = 65.0 / 1.8
)

// slabModel is the model that is fitted to a smoke: heat moving by conduction from
// the face to the middle of a slab (Fourier's law in a plane sheet), taken from the
// pit and given up to water that evaporates at the face. The face gives off less
// the more it has already given off, which is what makes a plateau and ends it;
// that law is a simplification of our own, not a published formula.
type slabModel struct {
	half   float64 // half the thickness, m
	spread float64 // heat diffusivity, m²/h
	take   float64 // heat transfer over conductivity, 1/m
	wet    float64 // how freely the face evaporates at the start
	supply float64 // what the inside can send to the face after firstDry, °F/h
	store  float64 // what the inside has to give before it runs low, °F
	drop   float64 // how much more it sends until then
	vapour float64 // vapour pressure in the pit, Pa
	bias   float64 // what the slab feels of the pit above what is read there, °F
}

// slabState is the model's state at one time.
type slabState struct {
	temp  [slabCells]float64 // °F, the middle first
	given float64            // evaporated so far, °F of cooling of the whole slab
}

func (s *slabState) core() float64 { return s.temp[0] }

// saturation is the pressure of saturated water vapour in Pa at °F, in Magnus'
// form (World Meteorological Organization constants, from memory).
func saturation(f float64) float64 {
	c := (f - 32) / 1.8
	return 610.94 * math.Exp(17.625*c/(c+243.04))
}

// face is what passes at the face, in °F an hour of the whole slab: the heat taken
// from the pit, and the cooling by evaporation.
func (m *slabModel) face(s *slabState, pit float64) (taken, evaporated float64) {
	outer := s.temp[slabCells-1]
	pit += m.bias
	// °F/h of the whole slab for each °F between pit and face.
	rate := m.spread * m.take / m.half
	taken = rate * (1 + radiantGrowth*((pit+outer)/2-130)) * (pit - outer)
	free := rate * m.wet * max(0, saturation(outer)-m.vapour) / psychrometric
	if free <= 0 {
		return taken, 0
	}
	// The face gives off what it freely would or what the inside sends to it,
	// whichever is less, joined smoothly.
	fill := s.given / m.store
	sent := m.supply * math.Exp(supplyGrowth*(outer-130)) * firstDry / (s.given + 0.1) * (1 + m.drop/(1+fill*fill*fill))
	r := free / sent
	r *= r
	return taken, free / math.Sqrt(math.Sqrt(1+r*r))
}

// step moves the state on by one step with the pit at a temperature: conduction
// implicitly (Thomas elimination), the face as it is at the start of the step.
func (m *slabModel) step(s *slabState, pit float64) {
	taken, evaporated := m.face(s, pit)
	dx := m.half / slabCells
	k := m.spread * stepHours / (dx * dx)
	// The face's gain depends on its own temperature; its part in that is taken
	// implicitly, or a long step would swing.
	pull := m.spread * m.take / m.half * slabCells * stepHours
	outer := s.temp[slabCells-1]
	gain := (taken-evaporated)*slabCells*stepHours + pull*outer
	var ratio [slabCells]float64
	for i := range slabCells {
		left, right := k, k
		if i == 0 {
			left = 0
		}
		if i == slabCells-1 {
			right = 0
		}
		diag, value := 1+left+right, s.temp[i]
		if i == slabCells-1 {
			diag += pull
			value += gain
		}
		if i > 0 {
			diag -= left * ratio[i-1]
			value += left * s.temp[i-1]
		}
		ratio[i], s.temp[i] = right/diag, value/diag
	}
	for i := slabCells - 2; i >= 0; i-- {
		s.temp[i] += ratio[i] * s.temp[i+1]
	}
	s.given += evaporated * stepHours
}
