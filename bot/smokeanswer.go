package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
)

// smokeAnswer says in at most five lines what the readings show, for the pieces
// that were read or, with none, all that are hot.
func (t *Turn) smokeAnswer(s course.State, list []parse.Reading) (reply.Reply, error) {
	var r reply.Reply
	smoking, cooling := t.hotPieces(s, list)
	if len(smoking) > 0 {
		t.saySmoke(&r, s, smoking)
	}
	if len(cooling) == 1 {
		t.sayCooling(&r, s, cooling[0])
	} else {
		t.sayCoolings(&r, s, cooling)
	}
	if r.Empty() {
		r.Say(reply.B(name(s)), ": noted.")
	}
	return r, nil
}

// hotPieces are the letters of the pieces in the smoke and of those cooling, or
// read or warm again after it, that readings speak of.
func (t *Turn) hotPieces(s course.State, list []parse.Reading) (smoking, cooling []string) {
	named, pitOnly := map[string]bool{}, len(list) > 0
	for _, r := range list {
		if r.Core != nil {
			named[r.Piece], pitOnly = true, false
		}
	}
	all := len(list) == 0 || named[""] || pitOnly
	for _, p := range s.Pieces {
		if !all && !named[p.Letter] {
			continue
		}
		switch next, ok := p.Next(); {
		case !ok:
		case next.Step == course.Smoked:
			smoking = append(smoking, p.Letter)
		case next.Step == course.Cooled || next.Step == course.Chilled || t.notCold(s, p),
			len(list) > 0 && !pitOnly && p.Has(course.Smoked) && !p.Has(course.Packed):
			cooling = append(cooling, p.Letter)
		}
	}
	if pitOnly && len(smoking) > 0 { // a pit is of what hangs in it
		cooling = nil
	}
	return smoking, cooling
}

// notCold says whether the readings of a piece show that it is warm again or cooled too
// slowly, whatever was recorded of it since.
func (t *Turn) notCold(s course.State, p course.PieceState) bool {
	c, ok := s.CoolingOf(p.Letter, t.Now)
	return ok && !p.Has(course.Packed) && (c.Verdict == curemath.CoolingWarmAgain || c.Verdict == curemath.CoolingFailed)
}

// mostPieces is how many lines an answer has for pieces: those past it share the last.
const mostPieces = 3

// sayPieces says what there is to say of each piece.
func sayPieces(r *reply.Reply, lines [][]any) {
	for len(lines) > mostPieces {
		last := len(lines) - 1
		lines[last-1] = append(append(lines[last-1], " "), lines[last]...)
		lines = lines[:last]
	}
	for _, line := range lines {
		r.Say(line...)
	}
}

// mostLines is how long an answer on a smoke day is at most.
const mostLines = 5

func (t *Turn) saySmoke(r *reply.Reply, s course.State, pieces []string) {
	first := s.Outlook(pieces[0])
	for _, letter := range pieces {
		o := s.Outlook(letter)
		first.Stalled, first.Falling = first.Stalled || o.Stalled, first.Falling || o.Falling
		first.Reached = first.Reached && o.Reached
	}
	if len(pieces) == 1 {
		r.Say(reply.B(t.pieceName(s, pieces[0])), ": ", t.readingLine(s.Outlook(pieces[0])), ".")
		if left := t.left(s, pieces[0]); len(left) > 0 {
			r.Say(left...)
		}
	} else {
		var lines [][]any
		for _, letter := range pieces {
			line := []any{reply.B(t.pieceName(s, letter)), ": ", t.readingLine(s.Outlook(letter)), "."}
			if left := t.left(s, letter); len(left) > 0 {
				line = append(append(line, " "), left...)
			}
			lines = append(lines, line)
		}
		sayPieces(r, lines)
	}
	var rest []string
	for _, line := range []string{t.pitWarning(s, first), t.worstDanger(s, pieces), t.worstHeat(s, pieces)} {
		if line != "" {
			rest = append(rest, line)
		}
	}
	if room := mostLines - min(len(pieces), mostPieces); len(pieces) > 1 && len(rest) > room {
		rest = append(rest[:room-1:room-1], strings.Join(rest[room-1:], " "))
	}
	for _, line := range rest {
		r.Say(line)
	}
	row := []reply.Button{}
	for _, letter := range pieces {
		if o := s.Outlook(letter); o.Reached && len(row) < 4 {
			row = append(row, reply.Button{Label: "Out of the smoke" + letterIf(s, letter), Line: fmt.Sprintf("smoked %d%s core %s", s.Number, letterOnly(s, letter), t.plainTemp(o.Core.Temp)), Version: s.Version})
		}
	}
	r.Press(append(row, reply.Button{Label: "Chart", Line: fmt.Sprintf("chart %d", s.Number)})...)
}

func letterIf(s course.State, letter string) string {
	if len(s.Pieces) == 1 || letter == "" {
		return ""
	}
	return " " + letter
}

func letterOnly(s course.State, letter string) string {
	return strings.TrimSpace(letterIf(s, letter))
}

// pieceName is "Batch 3 (juniper)" or "Batch 3 a (juniper)".
func (t *Turn) pieceName(s course.State, letter string) string {
	if len(s.Pieces) == 1 {
		return name(s)
	}
	p, _ := s.Find(letter)
	n := fmt.Sprintf("Batch %d %s", s.Number, letter)
	if p.Flavouring != "" {
		n += " (" + p.Flavouring + ")"
	}
	return n
}

// plainTemp writes a temperature as it can be typed in the conversation's units.
func (t *Turn) plainTemp(f curemath.Fahrenheit) string {
	if t.units() == metric {
		return trim(float64(f.Celsius()), 1)
	}
	return trim(float64(f), 1)
}

// From where on what the readings show is spoken of: our own choice, common practice,
// no source.
const (
	heatFrom = curemath.Fahrenheit(120) // the core, that it is raw bacon still
	pitFalls = -2.0                     // °F an hour, of a fire that is out
)

// readApart is how far core and pit may have been read from each other and still be
// told as of one time: our own choice, common practice, no source.
const readApart = 30 * time.Minute

// readingLine says the last reading and its trend: "core 121 °F, pit 148 °F at
// 14:30; core +6 °F an hour". A pit read long before or after is told with its time.
func (t *Turn) readingLine(o course.Outlook) string {
	u := t.units()
	clock := func(at time.Time) string { return " at " + at.In(t.Loc).Format("15:04") }
	core, pit := "core "+u.temp(o.Core.Temp), "pit "+u.temp(o.Pit.Temp)
	line := ""
	switch apart := o.Core.At.Sub(o.Pit.At).Abs(); {
	case o.Core.At.IsZero() && o.Pit.At.IsZero():
		return "no reading yet"
	case o.Core.At.IsZero():
		line = pit + clock(o.Pit.At)
	case o.Pit.At.IsZero():
		line = core + clock(o.Core.At)
	case apart > readApart:
		line = core + clock(o.Core.At) + ", " + pit + clock(o.Pit.At)
	case o.Pit.At.After(o.Core.At):
		line = core + ", " + pit + clock(o.Pit.At)
	default:
		line = core + ", " + pit + clock(o.Core.At)
	}
	if o.HasTrend {
		line += "; core " + u.rate(o.CoreHour) + " an hour"
	}
	return line
}

// rate writes a change of temperature with its sign.
func (u units) rate(perHour float64) string {
	sign := "°F"
	if u == metric {
		perHour, sign = perHour*5/9, "°C"
	}
	if math.Abs(perHour) < 0.05 {
		return "±0 " + sign
	}
	s := trim(math.Abs(perHour), 1) + " " + sign
	if perHour < 0 {
		return "−" + s
	}
	return "+" + s
}

func (t *Turn) pitWarning(s course.State, o course.Outlook) string {
	u := t.units()
	switch {
	case o.Pit.At.IsZero():
		return ""
	case o.Rendered:
		return fmt.Sprintf("Pit too hot: %s. Over %s the fat renders out; close the vents and open the lid a crack (common practice, no source).", u.temp(o.Pit.Temp), u.temp(course.PitRendered))
	case o.Over:
		return fmt.Sprintf("Pit over its %s ceiling: bring it down before the fat renders at %s.", u.temp(s.Ceiling()), u.temp(course.PitRendered))
	case o.FireOut && o.OutSince.Before(o.Pit.At):
		falls := ""
		if o.PitHour <= pitFalls {
			falls = " and falls " + strings.TrimPrefix(u.rate(o.PitHour), "−") + " an hour"
		}
		return fmt.Sprintf("The fire looks out since %s; the pit is at %s%s. %s: a cold pit with warm meat in it is the worst place for it.", o.OutSince.In(t.Loc).Format("Mon 15:04"), u.temp(o.Pit.Temp), falls, fireOutDo(o))
	case o.Falling:
		return "The core falls under a hot pit: has the probe slipped, or was the meat out? Set the probe anew and read it again; a wrong reading is taken back with strike."
	case o.FireOut:
		return fmt.Sprintf("Is the fire out? The pit fell to %s and falls %s an hour. %s: a warm, dying pit is the worst place for it.", u.temp(o.Pit.Temp), strings.TrimPrefix(u.rate(o.PitHour), "−"), fireOutDo(o))
	case o.TooCool:
		return fmt.Sprintf("At this pit the core will not get to %s: the pit has to stand over it. Raise it, under its %s ceiling, or lower the target.", u.temp(s.Target()), u.temp(s.Ceiling()))
	case o.Stalled:
		return "Stalled: water drying off the surface cools the meat as fast as the pit warms it. It can last for hours and then goes on; hold the pit, don't chase it (common practice, no source)."
	}
	return ""
}

// worstDanger says how long the core has been where germs grow, and what that means
// for this cure: of several pieces, for the one that is worst off.
func (t *Turn) worstDanger(s course.State, pieces []string) string {
	line, worst, most := "", false, time.Duration(0)
	for _, letter := range pieces {
		text, d, uncured := t.danger(s, letter)
		if text != "" && (line == "" || uncured && !worst || uncured == worst && d > most) {
			line, worst, most = letterAmong(pieces, letter)+text, uncured, d
		}
	}
	return line
}

// letterAmong names a piece where several are spoken of.
func letterAmong(pieces []string, letter string) string {
	if len(pieces) == 1 {
		return ""
	}
	return letter + ": "
}

func (t *Turn) danger(s course.State, letter string) (line string, most time.Duration, uncured bool) {
	p, _ := s.Find(letter)
	uncured = !curemath.Cured(p.Ingoing)
	most, read := t.warmIn(s, p)
	switch {
	case most < dangerFrom, !read && !uncured:
		return "", most, false
	case uncured:
		return uncuredText(p, most, read) + ".", most, true
	}
	return fmt.Sprintf("%s between 40 and 140 °F (4 and 60 °C): without its cure (%s) that would not be safe [%s; the rest from memory].", howLong(most), ppm(p.Ingoing), curemath.DangerSource().String()), most, false
}

// worstHeat says what the readings show of the heat treatment so far: of several
// pieces, for the one whose core has been least warm.
func (t *Turn) worstHeat(s course.State, pieces []string) string {
	line, least := "", curemath.Fahrenheit(0)
	for _, letter := range pieces {
		if text, peak := t.heat(s, letter); text != "" && (line == "" || peak < least) {
			line, least = letterAmong(pieces, letter)+text, peak
		}
	}
	return line
}

func (t *Turn) heat(s course.State, letter string) (line string, peak curemath.Fahrenheit) {
	p, _ := s.Find(letter)
	h, err := curemath.HeatSoFar(course.Since(s.OwnCores(letter), p.Marks[course.Smoking].At))
	if err != nil {
		return "", 0
	}
	peak = h.Peak.Temp
	switch {
	case h.Table6_5.Met || h.Consumer.Met:
		line = "Heat by your readings: " + heatRules(h) + "; none is of a dry surface."
		if slices.Contains(h.Remarks, curemath.HeatOneReading) {
			line += " Only one of them is hot, and one may be a slip: read it once more."
		}
		if slow := t.slowComeUp(h); slow != "" {
			line += " " + slow
		}
	case h.Table6_5.Row > 0 && slices.Contains(h.Remarks, curemath.HeatLongGap):
		line = "Heat so far: the readings lie too far apart to credit any; one every quarter of an hour would show it."
	case h.Table6_5.Row > 0:
		line = fmt.Sprintf("Heat so far: %s of %s at %s (6.5-log, FSIS Appendix A 1999); %s to go.", howLongExact(h.Table6_5.Held), howLongExact(h.Table6_5.Needed), t.units().temp(h.Table6_5.Row), howLongExact(h.Table6_5.Missing))
	case peak >= heatFrom:
		line = "Heat so far: nothing counts under 130 °F (54 °C); it is raw bacon."
	}
	return line, peak
}

// heatRules says of each rule whether the readings meet it.
func heatRules(h curemath.Heat) string {
	return strings.Join([]string{metOrNot("6.5-log", h.Table6_5.Met), metOrNot("7-log", h.Table7.Met) + " (FSIS Appendix A 1999)",
		metOrNot("145 °F + 3 min (USDA)", h.Consumer.Met), metOrNot("160 °F (NCHFP 6.1.3)", h.Home.Met)}, ", ")
}

func metOrNot(rule string, met bool) string {
	if met {
		return rule + " met"
	}
	return rule + " not met"
}

func howLongExact(d time.Duration) string {
	if d < 3*time.Minute {
		return fmt.Sprintf("%d s", int(d.Round(time.Second)/time.Second))
	}
	return howLong(d)
}
