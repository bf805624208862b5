package curemath

import (
	"math"
	"math/rand/v2"
	"time"
)

// The slab the predictor is judged on: heat and water moving through half a
// belly of lean and fat layers, by finite differences, with convection,
// radiation, and evaporation held back by how dry the surface has become. It
// shares no equation with the model the predictor fits, which knows two
// temperatures and one drying number.

// smokehouse is everything that is drawn for one simulated smoke.
type smokehouse struct {
	half      float64   // half the thickness, m
	cond      []float64 // heat conductivity of each cell, W/(m·K), face last
	heatCap   []float64 // J/(m³·K)
	waterFull []float64 // kg/m³ of water at the start
	waterDiff float64   // diffusivity of water at 60 °C, m²/s
	convect   float64   // W/(m²·K)
	emit      float64   // emissivity
	wetArea   float64   // part of the face that gives off water
	vapour    float64   // vapour pressure in the pit, Pa
	wall      float64   // walls against the air, K
	start     float64   // °C
	target    float64   // °F
	pit       []float64 // °F, one a simulated half minute
	settled   float64   // hours after which the pit programme no longer changes
}

const (
	simStep  = 30.0 // s
	simCells = 20
	simHours = 40
)

// population says what smokes are drawn from.
type population struct {
	minThick, maxThick     float64 // m
	minConvect, maxConvect float64
	minVapour, maxVapour   float64
	minWater, maxWater     float64 // water diffusivity, m²/s
	minWet, maxWet         float64
	minOver, maxOver       float64 // pit over target, °F
	sharp                  float64 // share of bellies with sharp layers of fat
	staged                 float64 // share of smokes with a cool first stage
	swing, drift, dip      float64 // °F
	coreNoise, pitNoise    float64 // °F
	minGap, maxGap         float64 // minutes between readings
}

// judged is the population the test reports on: hot smokes of a belly with its
// pellicle, in a pit that is looked after.
func judged() population {
	return population{
		minThick: 0.032, maxThick: 0.060, minConvect: 4, maxConvect: 10,
		minVapour: 2000, maxVapour: 6000, minWater: 2e-10, maxWater: 5e-10,
		minWet: 0.15, maxWet: 0.45, minOver: 10, maxOver: 55, sharp: 0.15,
		staged: 0, swing: 5, drift: 2, dip: 18, coreNoise: 0.3, pitNoise: 1,
		minGap: 8, maxGap: 25,
	}
}

// practised is the wider population that the constants of the predictor were set
// on, with other seeds.
func practised() population {
	return population{
		minThick: 0.026, maxThick: 0.070, minConvect: 3, maxConvect: 13,
		minVapour: 1500, maxVapour: 8000, minWater: 1.5e-10, maxWater: 7e-10,
		minWet: 0.05, maxWet: 0.6, minOver: 6, maxOver: 60, sharp: 0.3,
		staged: 0.35, swing: 7, drift: 3, dip: 25, coreNoise: 0.5, pitNoise: 2,
		minGap: 8, maxGap: 40,
	}
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

func logBetween(r *rand.Rand, low, high float64) float64 {
	return math.Exp(between(r, math.Log(low), math.Log(high)))
}

func (p population) draw(r *rand.Rand) smokehouse {
	s := smokehouse{
		half:      between(r, p.minThick, p.maxThick) / 2,
		waterDiff: logBetween(r, p.minWater, p.maxWater),
		convect:   between(r, p.minConvect, p.maxConvect),
		emit:      between(r, 0.75, 0.95),
		wetArea:   between(r, p.minWet, p.maxWet),
		vapour:    between(r, p.minVapour, p.maxVapour),
		wall:      between(r, -6, 4),
		start:     between(r, 2, 9),
		target:    []float64{145, 150, 150, 152, 155}[r.IntN(5)],
	}
	for _, fat := range p.layers(r) {
		s.cond = append(s.cond, 1/((1-fat)/0.47+fat/0.21)) // one after the other
		s.heatCap = append(s.heatCap, (1-fat)*3.6e6+fat*2.3e6)
		s.waterFull = append(s.waterFull, (1-fat)*740+fat*100)
	}
	s.pit, s.settled = p.fire(r, s.target)
	return s
}

// layers draws the fat share of each cell, face last: either sharp layers of lean
// and fat across the whole piece, or streaks that run in and out and so leave a
// mixture that changes gently with depth.
func (p population) layers(r *rand.Rand) []float64 {
	out := make([]float64, simCells)
	if r.Float64() < p.sharp {
		fat := false
		for i := range out {
			if r.Float64() < 0.3 {
				fat = !fat
			}
			if fat {
				out[i] = 1
			}
		}
		return out
	}
	middle, wave := between(r, 0.15, 0.6), 0.0
	for i := range out {
		wave = 0.8*wave + 0.6*0.15*r.NormFloat64()
		out[i] = min(max(middle+wave, 0), 1)
	}
	return out
}

// fire draws the pit's air temperature: coming up from a lit fire, perhaps a cool
// first stage, then a level with swings, a slow wander, and dips when somebody
// puts wood on.
func (p population) fire(r *rand.Rand, target float64) (air []float64, settled float64) {
	level := target + between(r, p.minOver, p.maxOver)
	first, until := level, 0.0
	if r.Float64() < p.staged {
		first, until = between(r, 105, 130), between(r, 1, 4)
	}
	swing, period := p.swing*r.Float64(), between(r, 25, 70)/60
	rise := between(r, 0.15, 0.5)
	wander, dip, dipLeft := 0.0, 0.0, 0.0
	phase := between(r, 0, 2*math.Pi)
	dt := simStep / 3600
	now := between(r, 80, 120)
	for i := range int(simHours / dt) {
		t := float64(i) * dt
		aim := level
		if t < until {
			aim = first
		}
		now += (aim - now) * dt / rise
		wander += -wander*dt/1.5 + p.drift*math.Sqrt(2*dt/1.5)*r.NormFloat64()
		if dipLeft <= 0 && r.Float64() < dt/4 {
			dip, dipLeft = p.dip*between(r, 0.5, 1), between(r, 0.15, 0.4)
		}
		fall := 0.0
		if dipLeft > 0 {
			dipLeft -= dt
			fall = dip
		}
		air = append(air, now-fall+wander+swing*math.Sin(2*math.Pi*t/period+phase))
	}
	return air, until + 3.5*rise
}

func vapourPressure(c float64) float64 { return 610.94 * math.Exp(17.625*c/(c+243.04)) }

// waterActivity of meat by how much of its water is left.
func waterActivity(left float64) float64 {
	if left <= 0 {
		return 0
	}
	p := math.Pow(left, 1.2)
	return p / (p + 0.06)
}

// run gives the true core temperature in °F, one a half minute.
func (s smokehouse) run() []float64 {
	dx := s.half / simCells
	temp := make([]float64, simCells)
	water := make([]float64, simCells)
	for i := range temp {
		temp[i], water[i] = s.start, s.waterFull[i]
	}
	// The pellicle: the outer cell has lost part of its water already.
	water[simCells-1] *= 0.7
	out := make([]float64, 0, len(s.pit))
	flow := make([]float64, simCells+1)
	const sub = 3
	dt := simStep / sub
	for _, f := range s.pit {
		air := (f - 32) / 1.8
		for range sub {
			for i := 1; i < simCells; i++ {
				// Water moves down its activity, quicker when warm.
				d := s.waterDiff * math.Exp(3000*(1/333.15-1/(temp[i]+273.15)))
				full := math.Min(s.waterFull[i-1], s.waterFull[i])
				flow[i] = d * full * (water[i-1]/s.waterFull[i-1] - water[i]/s.waterFull[i]) / dx
			}
			last := simCells - 1
			face := temp[last]
			wall := air + s.wall + 273.15
			radiant := s.emit * 5.67e-8 * (math.Pow(wall, 4) - math.Pow(face+273.15, 4))
			pull := waterActivity(water[last]/s.waterFull[last])*vapourPressure(face) - s.vapour
			evaporate := math.Max(0, s.wetArea*s.convect/65*pull) / 2.36e6 // kg/(m²·s)
			flow[simCells] = math.Min(evaporate, 0.2*water[last]*dx/dt)
			for i := range water {
				water[i] += dt * (flow[i] - flow[i+1]) / dx
			}
			s.conduct(temp, dt, dx, s.convect*(air-face)+radiant-evaporate*2.36e6)
		}
		core := temp[0]*1.8 + 32
		out = append(out, core)
		if core > s.target+1 {
			break
		}
	}
	return out
}

// conduct takes one implicit step of heat conduction with a heat flow in W/m² into
// the face and none through the mid-plane (Thomas elimination).
func (s smokehouse) conduct(temp []float64, dt, dx, into float64) {
	var ratio [simCells]float64
	link := func(i int) float64 { return 2 / (1/s.cond[i-1] + 1/s.cond[i]) / dx }
	for i := range temp {
		mass := s.heatCap[i] * dx / dt
		left, right := 0.0, 0.0
		if i > 0 {
			left = link(i)
		}
		if i < simCells-1 {
			right = link(i + 1)
		}
		gain := mass * temp[i]
		if i == simCells-1 {
			gain += into
		}
		diag := mass + left + right
		if i > 0 {
			diag -= left * ratio[i-1]
			gain += left * temp[i-1]
		}
		ratio[i], temp[i] = right/diag, gain/diag
	}
	for i := simCells - 2; i >= 0; i-- {
		temp[i] += ratio[i] * temp[i+1]
	}
}

// log draws what a person would write down of it: readings with noise, rounded
// to a degree.
func (p population) log(r *rand.Rand, s smokehouse, truth []float64) (cores []CoreReading, pits []PitReading) {
	gap := between(r, p.minGap, p.maxGap)
	t := 0.0
	for {
		i := int(t * 60 / simStep)
		if i >= len(truth) {
			return cores, pits
		}
		at := smokeDay.Add(time.Duration(t * float64(time.Minute)))
		cores = append(cores, CoreReading{at, Fahrenheit(math.Round(truth[i] + p.coreNoise*r.NormFloat64()))})
		pits = append(pits, PitReading{at, Fahrenheit(math.Round(s.pit[i] + p.pitNoise*r.NormFloat64()))})
		t += gap * between(r, 0.6, 1.4)
	}
}

// reached is when the true core first comes to the target, in hours.
func (s smokehouse) reached(truth []float64) (float64, bool) {
	for i, t := range truth {
		if t >= s.target {
			return float64(i) * simStep / 3600, true
		}
	}
	return 0, false
}
