package curemath

// allTaken is a pick-up no little brine reaches: the meat takes all there is.
const allTaken Percent = 100

// wetBag says whether the water of a recipe is too little to cover the meat: a
// bag with some liquid in it rather than a tub. In the end the meat may have
// drunk all of it, so all of the cure counts on the meat (our own caution; the
// handbook has no such case), and the limit is still that of wet cures.
func wetBag(water, meat Grams) bool { return water < CoverWater.Of(meat) }

// assumedPickup is what is reckoned with until the meat has been weighed before and
// after: AssumedPickup, or all there is in a wet bag (our own caution).
func assumedPickup(water, meat Grams) Percent {
	if wetBag(water, meat) {
		return allTaken
	}
	return AssumedPickup
}

func (w *warnings) allTaken() {
	w.add(WarnPickupAssumed, practice(), about("So little water does not cover the meat, which may take all of it up, so all of the cure is counted on the meat. Half the meat's weight of water and more makes a brine."))
}

// water is what the recipe typically brings.
func (s *spread) water() Grams {
	var g float64
	for i := range s.parts {
		g += s.parts[i].at(ends{typical, typical, typical, typical}, float64(s.meat.Typical)).water
	}
	return Grams(g)
}

// wet says what it rests on that a recipe was read as a brine, and on which
// pick-up.
func (c *RecipeCheck) wet(q *RecipeQuestion, w *warnings) {
	if c.Method != Immersion {
		w.pickup(c.Cover > 0 && q.Pickup == 0)
		return
	}
	bag := q.Pickup == 0 && wetBag(c.Water.Typical, c.Meat.Typical)
	if q.Method == 0 {
		text := about("Read as a brine: ").grams(c.Water.Typical).say(" of water is in it. ")
		if bag {
			text.say("That is too little to cover the meat, which may take all of it up, so all of the cure is counted on the meat and held to the limit for wet cures.")
		} else {
			text.say("Both ways of counting are shown, and the higher is held to the limit.")
		}
		c.note(NoteBrine, -1, practice(), text)
	}
	switch {
	case bag && q.Method != 0:
		w.allTaken()
	case !bag:
		w.pickup(q.Pickup == 0)
	}
}
