package bot

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

func smokeSetCommands() []Command {
	return []Command{
		{Name: "target", Group: groupSmoke, Form: "target 3 155", Help: "core temperature to smoke to", Example: "target 1 152", Batch: true, Run: (*Turn).target},
		{Name: "ceiling", Group: groupSmoke, Form: "ceiling 3 165", Help: "what the pit is kept under", Example: "ceiling 1 165", Batch: true, Run: (*Turn).ceiling},
	}
}

// The ranges an aim may be set in: what is under them is not smoked bacon, what is
// over them renders it (common practice, no source).
const (
	lowestTarget, highestTarget   curemath.Fahrenheit = 80, 165
	lowestCeiling, highestCeiling curemath.Fahrenheit = 70, 250
	coldSmoke                     curemath.Fahrenheit = 90
)

func (t *Turn) target(args string) (reply.Reply, error) {
	var r reply.Reply
	s, f, err := t.aim("target", args, lowestTarget, highestTarget)
	if err != nil {
		return r, err
	}
	if s, err = t.record(s.Batch, "", course.AimCore, t.Now, course.Body{Core: &f}); err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": smoked to a core of ", t.units().temp(f), ".")
	if f < course.CoreTarget {
		r.Say("Under ", t.units().temp(course.CoreTarget), " it is raw bacon all through; cook before eating.")
	}
	return r, t.sayNextPing(&r, s)
}

func (t *Turn) ceiling(args string) (reply.Reply, error) {
	var r reply.Reply
	s, f, err := t.aim("ceiling", args, lowestCeiling, highestCeiling)
	if err != nil {
		return r, err
	}
	if s, err = t.record(s.Batch, "", course.AimPit, t.Now, course.Body{Pit: &f}); err != nil {
		return r, err
	}
	r.Say(reply.B(name(s)), ": pit kept under ", t.units().temp(f), ".")
	if f < coldSmoke {
		r.Say("That is cold smoke.", t.otherUnit(f, course.CoreTarget))
	}
	if f > course.PitRendered {
		r.Say("Over ", t.units().temp(course.PitRendered), " the fat of a belly renders out (common practice, no source).")
	}
	return r, nil
}

// aim reads the batch and the temperature of an aim. A number alone is the
// temperature, as with readings.
func (t *Turn) aim(cmd, args string, low, high curemath.Fahrenheit) (course.State, curemath.Fahrenheit, error) {
	of, text := "", args
	if ref, rest, ok, err := parse.Batch(args); err == nil && ok && rest != "" {
		of, text = fmt.Sprint(ref.Number), rest
	}
	p, err := t.which(cmd, of, nil)
	if err != nil {
		return p.State, 0, withValue(err, text)
	}
	s := p.State
	if err := t.mayChange(s); err != nil {
		return s, 0, err
	}
	if err := ended(s); err != nil {
		return s, 0, err
	}
	f, err := parse.Temperature(text, t.tempUnit())
	if err != nil {
		return s, 0, err
	}
	if f < low || f > high {
		u := t.units()
		return s, 0, &Error{Kind: BadInput, Why: fmt.Sprintf("%s is outside %s to %s.%s", u.temp(f), u.temp(low), u.temp(high), t.otherUnit(f, course.CoreTarget)), Example: fmt.Sprintf("%s %d %s", cmd, s.Number, t.plainTemp(course.CoreTarget))}
	}
	return s, f, nil
}

var (
	hungOf    = regexp.MustCompile(`(?i)\b(hanging|hung|racked|rack|on racks?|flat)\b`)
	ambientOf = regexp.MustCompile(`(?i)(-?\d+(?:[.,]\d+)?\s*°?\s*[fc]?)\s*(?:outside|ambient)\b|\b(?:outside|ambient)\s*(-?\d+(?:[.,]\d+)?\s*°?\s*[fc]?)\b`)
)

// smokeBody reads how the smoke starts: hanging or racked, the wood, and how cold
// it is outside.
func (t *Turn) smokeBody(body course.Body, text string) course.Body {
	rest, ambient := take(text, ambientOf)
	rest, hung := take(rest, hungOf)
	body.Extra = map[string]string{}
	if f, err := parse.Temperature(ambient, t.tempUnit()); ambient != "" && err == nil {
		body.Extra["ambient_f"] = trim(float64(f), 1)
	}
	switch h := strings.ToLower(hung); {
	case h == "":
	case strings.HasPrefix(h, "h"):
		body.Extra["hung"] = "hanging"
	default:
		body.Extra["hung"] = "racked"
	}
	if wood := clip(strings.Trim(rest, " ,;"), 60); wood != "" {
		body.Extra["wood"] = wood
	}
	body.Text = clip(text, 200)
	return body
}

// saySmokeStart repeats how the smoke began.
func (t *Turn) saySmokeStart(r *reply.Reply, s course.State, body course.Body) {
	var parts []string
	for _, key := range []string{"hung", "wood"} {
		if v := body.Extra[key]; v != "" {
			parts = append(parts, v)
		}
	}
	if v := body.Extra["ambient_f"]; v != "" {
		if f, err := parse.Temperature(v, parse.FahrenheitUnit); err == nil {
			parts = append(parts, t.units().temp(f)+" outside")
		}
	}
	if len(parts) > 0 {
		r.Say("Noted: ", strings.Join(parts, ", "), ".")
	}
	r.Say("Tell me what the thermometers read whenever you look: ", reply.Type(fmt.Sprintf("%d %s", s.Number, t.exampleReading())))
}

// smokedFor is how long a piece was in the smoke.
func smokedFor(p course.PieceState, now time.Time) time.Duration {
	in, ok := p.Marks[course.Smoking]
	if !ok || in.Skipped {
		return 0
	}
	if out, ok := p.Marks[course.Smoked]; ok {
		return out.At.Sub(in.At)
	}
	return now.Sub(in.At)
}
