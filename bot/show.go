package bot

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"larderhand/bot/course"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

// units is how a conversation likes its numbers.
type units bool

const (
	us     units = false
	metric units = true
)

func unitsOf(s store.Settings) units { return s.Units == "metric" }

var (
	// Grams of less than a small piece of meat are what a scale shows everywhere.
	metricWeight = regexp.MustCompile(`(?i)\d\s*(?:kg|kilos?|kilograms?)\b|(?:^|[^\d.,])(?:[3-9]\d\d|\d{4,})\s*(?:g|grams?)\b`)
	poundWeight  = regexp.MustCompile(`(?i)\d\s*(lbs?|pounds?|oz|ounces?|#)`)
)

// learnUnits takes up the units of the first weight a conversation names; from
// then on only a setting changes them.
func (t *Turn) learnUnits(line string) error {
	s := &t.Conv.Settings
	if s.Units != "" {
		return nil
	}
	switch {
	case poundWeight.MatchString(line):
		s.Units = "us"
	case metricWeight.MatchString(line):
		s.Units = "metric"
	default:
		return nil
	}
	var err error
	t.Conv, err = t.Tx.SaveConversation(t.Conv)
	return err
}

// meat writes a weight of meat: the conversation's unit, and grams where that
// is another.
func (u units) meat(g curemath.Grams) string {
	if u == metric {
		return trim(g.Kilograms(), 3) + " kg"
	}
	return trim(g.Pounds(), 2) + " lb"
}

// meatExact is meat with the grams beside it.
func (u units) meatExact(g curemath.Grams) string {
	if u == metric {
		return u.meat(g)
	}
	return fmt.Sprintf("%s (%s g)", u.meat(g), thousands(float64(g)))
}

func (u units) thickness(m curemath.Millimetres) string {
	if u == metric {
		return trim(float64(m), 0) + " mm"
	}
	return trim(m.Inches(), 2) + " in"
}

func (u units) temp(f curemath.Fahrenheit) string {
	if u == metric {
		return trim(float64(f.Celsius()), 1) + " °C"
	}
	return trim(float64(f), 1) + " °F"
}

// grams writes what goes on the scale, to the decimals it was rounded to.
func grams(g curemath.Grams, decimals int) string {
	return fmt.Sprintf("%.*f g", decimals, float64(g))
}

// trim writes a number with at most so many decimals and no zeros at the end.
func trim(x float64, decimals int) string {
	s := fmt.Sprintf("%.*f", decimals, x)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	return s
}

func thousands(x float64) string {
	s := fmt.Sprintf("%.0f", math.Abs(x))
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

func percent(p curemath.Percent) string { return trim(float64(p), 2) + " %" }

func ppm(p curemath.PPM) string { return trim(float64(p), 1) + " ppm" }

// dayHour is how an instant reads: "Tue 2 Mar 08:00".
func (t *Turn) dayHour(at time.Time) reply.Span { return when(at, t.Loc) }

func when(at time.Time, loc *time.Location) reply.Span {
	return reply.When(at, at.In(loc).Format("Mon 2 Jan 15:04"))
}

func dateText(d plan.Date) string {
	return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC).Format("Mon 2 Jan 2006")
}

// howLong writes a duration in its two largest parts.
func howLong(d time.Duration) string {
	d = d.Round(time.Minute)
	days, hours, minutes := int(d.Hours())/24, int(d.Hours())%24, int(d.Minutes())%60
	switch {
	case days > 0 && hours > 0:
		return fmt.Sprintf("%s %s", count(days, "day"), count(hours, "hour"))
	case days > 0:
		return count(days, "day")
	case hours > 0 && minutes > 0:
		return fmt.Sprintf("%d h %d min", hours, minutes)
	case hours > 0:
		return count(hours, "hour")
	}
	return count(minutes, "minute")
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// name is how a batch is spoken of: "Batch 3 (juniper)".
func name(s course.State) string {
	if f := flavours(s); f != "" {
		return fmt.Sprintf("Batch %d (%s)", s.Number, f)
	}
	return fmt.Sprintf("Batch %d", s.Number)
}

// flavours lists the flavourings of a batch, each once.
func flavours(s course.State) string {
	var list []string
	seen := map[string]bool{}
	for _, p := range s.Pieces {
		if f := p.Flavouring; f != "" && !seen[strings.ToLower(f)] {
			seen[strings.ToLower(f)] = true
			list = append(list, f)
		}
	}
	return strings.Join(list, "; ")
}

// pieceNames says which pieces letters stand for: "all of it", or "piece a
// (juniper)".
func pieceNames(s course.State, letters string) string {
	if letters == "" || len(letters) == len(s.Pieces) {
		return ""
	}
	var list []string
	for _, l := range letters {
		p, _ := s.Find(string(l))
		n := string(l)
		if p.Flavouring != "" {
			n += " (" + p.Flavouring + ")"
		}
		list = append(list, n)
	}
	if len(list) == 1 {
		return "piece " + list[0]
	}
	return "pieces " + strings.Join(list, ", ")
}

// day says where the cure stands at an instant: "day 4 of 9", and past its check
// "day 11, 2 past the check". Of several pieces it is the one that needs longest.
func day(s course.State, at time.Time, loc *time.Location) string { return dayOf(s, "", at, loc) }

// dayOf says it of a piece, by its own days.
func dayOf(s course.State, letter string, at time.Time, loc *time.Location) string {
	n, of := plan.DateOf(at, loc).DaysSince(plan.DateOf(s.Opened, loc)), s.DaysOf(letter)
	if n > of {
		return fmt.Sprintf("day %d, %d past the check", n, n-of)
	}
	return fmt.Sprintf("day %d of %d", max(n, 0), of)
}

// checkDates says when the cure check is: of each piece still in its cure, where they
// have different days.
func (t *Turn) checkDates(s course.State) string {
	if !s.Apart() {
		for _, p := range s.Pieces { // those that are through have no say
			if !p.Has(course.Firm) {
				return dateText(s.CheckDateOf(p.Letter, t.Loc))
			}
		}
		return dateText(s.CheckDate(t.Loc))
	}
	var list []string
	for _, p := range s.Pieces {
		if next, ok := p.Next(); ok && next.Step == course.Firm {
			list = append(list, p.Letter+" "+dateText(s.CheckDateOf(p.Letter, t.Loc)))
		}
	}
	return strings.Join(list, ", ")
}

// clip shortens what a person typed so that it can be repeated, and takes out
// what is not text.
func clip(s string, most int) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	s = strings.Join(strings.Fields(s), " ")
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return strings.TrimSpace(string([]rune(s)[:most-1])) + "…"
}

// stop ends a text with a full stop unless it has an end of its own.
func stop(s string) string {
	if s == "" || strings.ContainsRune(".?!", rune(s[len(s)-1])) {
		return s
	}
	return s + "."
}

// sentence gives a text a capital and a full stop.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return stop(string(unicode.ToUpper(r)) + s[n:])
}

func join(letters []string) string { return strings.Join(letters, "") }
