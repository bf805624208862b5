package curemath

// saysStrength says whether a nitrite content a curing mix may have is said
// beside the name.
func (l RecipeLine) saysStrength() bool {
	return l.Strength >= MinMixNitrite && l.Strength <= MaxMixNitrite
}

// statedCure is a cure known by nothing but the percent on its packet; what else
// is in it is not known.
func statedCure(strength Percent) *KnownMix {
	return &KnownMix{Kind: HoldsNitrite, Low: strength, High: strength, Mix: Mix{Name: mixName(strength), Nitrite: strength, RestUnknown: true}}
}

func mixName(nitrite Percent) string { return figure(float64(nitrite), 3) + " % curing mix" }

// mix is the curing mix of a part, with the strength said beside it.
func (pt *part) mix() Mix {
	m := pt.cure.Mix
	if pt.stated && m.Nitrite != pt.nitrite.Typical {
		m.Name, m.Nitrite, m.Source = mixName(pt.nitrite.Typical), pt.nitrite.Typical, Source{}
	}
	return m
}

// numbered says whether a cure is called no. 1 or no. 2, which are sold at one
// strength (see the mixes file).
func numbered(name string) bool {
	words := nameWords(name)
	return len(words) > 1 && (words[len(words)-1] == "1" || words[len(words)-1] == "2")
}

// besideItself says whether the strength said beside a numbered mix is none it
// is sold at: most likely it is the share of the meat, or another mix.
func besideItself(k *KnownMix, line RecipeLine) bool {
	return k.Kind == HoldsNitrite && numbered(line.Name) && (line.Strength < k.Low*0.8 || line.Strength > k.High*1.25)
}

// sharesSaidTwice takes back a strength that is only the share of the meat said
// once more: "cure 0.25 % 5 g" for 2 kg names no mix of 0.25 %.
func (c *RecipeCheck) sharesSaidTwice(p Pantry, s *spread) {
	for i := range s.parts {
		pt := &s.parts[i]
		l := c.Lines[pt.index].RecipeLine
		if !pt.stated && !c.Lines[pt.index].misstated || l.Amount.Kind != ByMass || l.Amount.Per.High != 0 {
			continue
		}
		share := shareOn(l.Amount.Mass.Typical, c.Meat.Typical)
		if share < l.Strength*0.95 || share > l.Strength*1.05 {
			continue
		}
		l.Strength = 0
		read, part := p.read(l)
		if read.Kind == LineCure || read.Kind == LineIngredient {
			part.index = pt.index
			c.Lines[pt.index], *pt = read, part
		}
	}
}
