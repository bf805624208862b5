package course

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func readAt(h string, pit, core float64) told {
	return told{Reading, "", h, fmt.Sprintf(`{"pit":%g,"core":%g}`, pit, core)}
}

// A core cannot fall under a pit well above it, and a fire that is out stays so until
// the pit is brought up again: common practice, no source.
func TestFallingCoreAndDeadFire(t *testing.T) {
	for _, c := range []struct {
		name                  string
		told                  []told
		falling, out, tooCool bool
	}{
		{"three degrees an hour", []told{readAt("10 14:00", 150, 83), readAt("10 15:00", 150, 80)}, true, false, false},
		{"hour after hour", []told{readAt("10 14:00", 150, 83), readAt("10 15:00", 150, 80), readAt("10 16:00", 150, 77), readAt("10 17:00", 150, 74)}, true, false, false},
		{"a degree an hour", []told{readAt("10 14:00", 150, 83), readAt("10 15:00", 150, 82)}, false, false, false},
		{"a thermometer wanders", []told{readAt("10 14:00", 150, 83), readAt("10 14:10", 150, 82)}, false, false, false},
		{"it rises", []told{readAt("10 14:00", 150, 83), readAt("10 15:00", 150, 86)}, false, false, false},
		{"the pit is hardly warmer", []told{readAt("10 14:00", 90, 88), readAt("10 15:00", 90, 85)}, false, false, true},
		{"with the fire out it may fall", []told{readAt("10 14:00", 150, 83), readAt("10 15:00", 120, 82), readAt("10 16:00", 95, 79)}, false, true, true},
		{"out", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60)}, false, true, true},
		{"still out hours later, the pit where it was", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 70, 65)}, false, true, true},
		{"a little warmer by the sun", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 82, 65)}, false, true, true},
		{"just relit", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 148, 70)}, false, false, false},
		{"coming up", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 95, 62)}, false, false, false},
		{"relit and still too cool three hours on", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 140, 70), readAt("11 00:30", 140, 90)}, false, false, true},
		{"out a second time", []told{readAt("10 14:00", 150, 83), readAt("10 18:00", 70, 60), readAt("10 21:00", 150, 70), readAt("11 00:00", 80, 75)}, false, true, true},
	} {
		s := smokeState(120, append([]told{{string(Smoking), "", "10 08:00", ""}}, c.told...)...)
		o := s.Outlook("a")
		if o.Falling != c.falling || o.FireOut != c.out || o.TooCool != c.tooCool {
			t.Errorf("%s: falling %v, out %v, too cool %v", c.name, o.Falling, o.FireOut, o.TooCool)
		}
		if _, ok := s.Forecast("a"); ok && (o.Falling || o.FireOut) {
			t.Errorf("%s: an estimate is given", c.name)
		}
	}
}

// A fire is out only under a pit colder than any smoke needs, and a pit at the target
// or over it has none out; of a core that does not fall none is said to.
func TestOutlookHoldsTogether(t *testing.T) {
	hours := []string{"10 14:00", "10 15:00", "10 16:30", "10 18:00", "10 21:00"}
	rapid.Check(t, func(t *rapid.T) {
		list := []told{{string(Smoking), "", "10 08:00", ""}}
		rises := true
		last := 0.0
		for _, h := range hours[:rapid.IntRange(1, len(hours)).Draw(t, "readings")] {
			core := rapid.Float64Range(40, 150).Draw(t, "core")
			rises = rises && core >= last
			last = core
			list = append(list, readAt(h, rapid.Float64Range(40, 200).Draw(t, "pit"), core))
		}
		s := smokeState(120, list...)
		o := s.Outlook("a")
		if o.FireOut && (o.Pit.Temp >= s.Target() || o.OutSince.IsZero()) {
			t.Fatalf("out at %v", o.Pit)
		}
		if o.Falling && (rises || o.FireOut || o.Pit.Temp <= o.Core.Temp) {
			t.Fatalf("falling: %+v", o)
		}
	})
}
