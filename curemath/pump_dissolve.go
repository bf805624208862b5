package curemath

// easily is how much of what cold water can hold a pickle is made up to where the
// salt is free to choose: a pickle near its limit takes long to dissolve and drops
// salt in the needle (common practice, no source).
const easily = 0.9

// Dissolves says whether the salt of a pickle dissolves with ease in its cold
// water: up to nine tenths of the 26 % it holds (26 %: from memory; nine tenths:
// common practice, no source).
func (p Pickle) Dissolves(m Mix) bool {
	salt := p.Salt + m.Salt().Of(p.Mix)
	return shareOn(salt, salt+p.Water) <= saturated*easily
}

// SaltThatDissolves is the most salt, in tenths of a percent of the green weight
// and no more than t.Salt, whose pickle dissolves with ease (see Dissolves for the source);
// ok is false where the mix alone brings too much. Errors of SolvePump count as not dissolving.
func (t PumpTargets) SaltThatDissolves() (salt Percent, ok bool) {
	for tenths := int(min(t.Salt, MaxSalt)*10 + 1e-9); tenths > 0; tenths-- {
		t.Salt = Percent(tenths) / 10
		if t.dissolves() {
			return t.Salt, true
		}
	}
	return 0, false
}

// PumpThatDissolves is the least pump, in whole percent and no less than t.Pump,
// whose pickle carries t.Salt and dissolves with ease (see Dissolves
// for the source); ok is false if none does.
func (t PumpTargets) PumpThatDissolves() (pump Percent, ok bool) {
	for p := int(t.Pump); p <= int(maxPump); p++ {
		if Percent(p) < t.Pump {
			continue
		}
		t.Pump = Percent(p)
		if t.dissolves() {
			return t.Pump, true
		}
	}
	return 0, false
}

func (t PumpTargets) dissolves() bool {
	c, err := SolvePump(t)
	return err == nil && c.Weigh.Dissolves(t.Mix)
}
