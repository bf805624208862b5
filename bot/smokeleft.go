package bot

import (
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// left says how long until the core is at its target: the middle and the range
// of an estimate, as a time to wait and by the clock.
func (t *Turn) left(s course.State, letter string) []any {
	o := s.Outlook(letter)
	u := t.units()
	switch {
	case o.Reached && o.Core.Temp < s.Target():
		return []any{"The core has been at its ", u.temp(s.Target()), " target: take it out."}
	case o.Reached:
		return []any{"Core at its ", u.temp(s.Target()), " target: take it out."}
	}
	if o.Core.At.IsZero() {
		return nil
	}
	f, ok := s.Forecast(letter)
	togo := strings.TrimPrefix(u.rate(float64(s.Target()-o.Core.Temp)), "+")
	switch {
	case o.FireOut:
		return []any{togo, " to go to the ", u.temp(s.Target()), " target; no estimate while the fire is out."}
	case o.Falling:
		return []any{togo, " to go to the ", u.temp(s.Target()), " target; no estimate while the core falls."}
	case !ok || f.State == curemath.SmokeTooFew:
		return []any{togo, " to go to the ", u.temp(s.Target()), " target; a few more readings of pit and core and I estimate when."}
	case f.State == curemath.SmokeOutOfReach && !o.Relit.IsZero() && o.Core.At.Sub(o.Relit) < litWithin:
		return []any{togo, " to go to the ", u.temp(s.Target()), " target; the fire was only just relit, a few more readings and I estimate when."}
	case f.State == curemath.SmokeOutOfReach && (o.Stalled || o.TooCool):
		return []any{togo, " to go; no estimate while it stands."}
	case f.State == curemath.SmokeOutOfReach:
		return []any{togo, " to go. Estimate: with the pit at ", u.temp(roundDegree(f.Pit)), " it hardly gets to ", u.temp(s.Target()), "; a hotter pit, or a lower target and cook it later."}
	case !f.OpenEnded && f.AsOf.Add(f.High).Before(t.Now):
		return []any{togo, " to go at ", t.clock(f.AsOf.In(t.Loc)), "; the estimate, ", t.clock(f.AsOf.Add(f.High).In(t.Loc).Round(10 * time.Minute)), " at the latest, has run out. What does the core read now?"}
	default:
		return append([]any{togo, " to go. Estimate: "}, t.leftText(f)...)
	}
}

func roundDegree(f curemath.Fahrenheit) curemath.Fahrenheit {
	return curemath.Fahrenheit(int(f + 0.5))
}

// leftText is "about 3 h 40 min (3 to 5 h), so about 18:10 (17:30 to 19:30).".
func (t *Turn) leftText(f curemath.SmokeForecast) []any {
	from := func(d time.Duration) time.Duration { return max(f.AsOf.Add(d).Sub(t.Now), 0) }
	clock := func(d time.Duration) reply.Span { return t.clock(f.AsOf.Add(d).In(t.Loc).Round(10 * time.Minute)) }
	late, lateClock := about(from(f.High)), any(clock(f.High))
	if f.OpenEnded {
		late, lateClock = "more than a day", "open"
	}
	return []any{"about ", about(from(f.Typical)), " (", about(from(f.Low)), " to ", late, "), so about ", clock(f.Typical), " (", clock(f.Low), " to ", lateClock, ")."}
}

// about writes a time left no finer than it is known: ten minutes up to three
// hours, half hours beyond.
func about(d time.Duration) string {
	step := 10 * time.Minute
	if d >= 3*time.Hour {
		step = 30 * time.Minute
	}
	d = d.Round(step)
	if d < 10*time.Minute {
		return "10 minutes"
	}
	return howLong(d)
}
