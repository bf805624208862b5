package curemath

import "math"

// Mix is a curing mix: what part of its mass is nitrite, nitrate, sugar and
// other things. The rest is salt.
type Mix struct {
	Name    string
	Nitrite Percent // of the salt named on the packet, sodium or potassium
	Nitrate Percent
	Sugar   Percent
	Other   Percent // anti-caking agents, spices: neither salt nor sugar
	// Potassium: the nitrite is the potassium salt, of which it takes 1.23347
	// times as much for the same nitrite.
	Potassium bool
	// RestUnknown: what is not nitrite is salt and sugar in shares only the
	// packet knows; it is counted as salt.
	RestUnknown bool
	// Source is where the composition comes from; a percent a person read off
	// a packet has none.
	Source Source
}

// Range of nitrite a mix may hold here. Under the low end salt alone would make
// the meat inedible; over the high end it is not a mix sold for home curing
// (from memory), and a slip of the scale is poison.
const (
	MinMixNitrite Percent = 0.2
	MaxMixNitrite Percent = 10
)

// Salt is the part of the mix that is plain salt: what is left over (computed).
func (m Mix) Salt() Percent { return 100 - m.Nitrite - m.Nitrate - m.Sugar - m.Other }

// SodiumNitrite is the nitrite of the mix reckoned as sodium nitrite, which
// every ppm in this package is (factors computed from atomic weights).
func (m Mix) SodiumNitrite() Percent {
	if m.Potassium {
		return m.Nitrite / potassiumPerSodium
	}
	return m.Nitrite
}

// StandardMix is the mix most recipes mean: 6.25 % sodium nitrite, rest salt
// (supplier sheets: second-hand).
func StandardMix() Mix {
	return Mix{
		Name:    "6.25 % curing mix",
		Nitrite: 6.25,
		Source:  Source{Document: "supplier sheets, many", Status: SecondHand},
	}
}

// MixOf is a mix of that much sodium nitrite with salt, as read off a packet,
// whose word is taken as exact. It refuses a percent no curing mix has.
func MixOf(nitrite Percent) (Mix, error) {
	m := Mix{Name: figure(float64(nitrite), 3) + " % curing mix", Nitrite: nitrite}
	if err := m.check(); err != nil {
		return Mix{}, err
	}
	return m, nil
}

// check refuses a mix that cannot be worked with.
func (m Mix) check() error {
	for _, p := range [...]Percent{m.Nitrite, m.Nitrate, m.Sugar, m.Other} {
		if math.IsNaN(float64(p)) || math.IsInf(float64(p), 0) {
			return &Refusal{Kind: NotANumber, Field: "make-up of the curing mix", Mix: m}
		}
	}
	if m.Nitrite < MinMixNitrite || m.Nitrite > MaxMixNitrite ||
		m.Nitrate < 0 || m.Sugar < 0 || m.Other < 0 || m.Salt() < 0 {
		return &Refusal{Kind: MixUnknown, Mix: m, Said: figure(float64(m.Nitrite), 4) + " %", Hint: mixHint(m)}
	}
	return nil
}

// mixHint catches the percent typed as a proportion: 0.0625 for 6.25 %.
func mixHint(m Mix) string {
	if p := m.Nitrite * 100; m.Nitrite > 0 && m.Nitrite < MinMixNitrite && p <= MaxMixNitrite {
		return "Did you mean " + figure(float64(p), 3) + " %?"
	}
	if m.Nitrite > MaxMixNitrite {
		return "Anything near pure nitrite does not belong in a kitchen."
	}
	return ""
}
