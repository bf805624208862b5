package bot

import (
	"fmt"
	"strings"
	"time"

	"larderhand/bot/chart"
	"larderhand/bot/course"
	"larderhand/bot/parse"
	"larderhand/curemath"
	"larderhand/store"
)

// summary gathers what there is to say of a batch, in the conversation's units; in
// full for the file, with every rule's source, and in brief for the picture.
func (t *Turn) summary(s course.State, full bool) (chart.SummaryData, error) {
	d := chart.SummaryData{Batch: s.Number, Flavour: flavours(s), Curve: t.smokeData(s, true), Caution: t.cardCaution(s)}
	owner, err := t.Tx.MemberByID(s.Keeper)
	if err != nil {
		return d, err
	}
	d.Under = fmt.Sprintf("%s · %s – %s · %s", owner.Name, s.Opened.In(t.Loc).Format("2 Jan"), t.lastDay(s).In(t.Loc).Format("2 Jan 2006"), count(len(s.Pieces), "piece"))
	d.Tiles = t.cardTiles(s)
	d.Sections = []chart.Section{
		{Title: "What went in", Facts: t.wentIn(s)},
		{Title: "Cure", Facts: t.cureFacts(s)},
		{Title: "Smoke", Facts: t.smokeFacts(s)},
		{Title: "Heat and chill", Facts: t.heatFacts(s, full)},
		{Title: "Yield and cost", Facts: t.yieldFacts(s)},
	}
	packed, done := s.Marked(course.Packed, "")
	var along []chart.Fact
	for _, l := range s.Lost {
		along = append(along, chart.Fact{Label: l.At.In(t.Loc).Format("2 Jan 15:04"), Value: "thrown away: " + strings.TrimSpace(l.Letter+" "+l.Flavouring) + ", " + l.Why})
	}
	for _, l := range s.Log {
		if l.Kind != course.Note && l.Kind != course.Taste {
			continue
		}
		who, err := t.Tx.MemberByID(l.Member)
		if err != nil {
			return d, err
		}
		if l.Kind == course.Taste {
			d.Notes = append(d.Notes, who.Name+letterIf(s, l.Piece)+": "+tasteText(l.Body))
			continue
		}
		if done && !l.At.Before(packed.At) { // what is said after packing is of the taste
			d.Notes = append(d.Notes, who.Name+letterIf(s, l.Piece)+": "+l.Body.Text)
			continue
		}
		along = append(along, chart.Fact{Label: l.At.In(t.Loc).Format("2 Jan 15:04"), Value: who.Name + letterIf(s, l.Piece) + ": " + l.Body.Text})
	}
	if len(along) > 0 {
		d.Sections = append(d.Sections, chart.Section{Title: "Remarks on the way", Facts: along})
	}
	return d, nil
}

func allFrozen(s course.State) bool {
	for _, p := range s.Pieces {
		if !p.Marks[course.Packed].Body.Frozen {
			return false
		}
	}
	return true
}

// lastDay is when a batch was packed or ended, or now.
func (t *Turn) lastDay(s course.State) time.Time {
	if m, ok := s.Marked(course.Packed, ""); ok {
		return m.At
	}
	if s.End != "" {
		return s.Heard()
	}
	return t.Now
}

func (t *Turn) cardTiles(s course.State) []chart.Fact {
	tiles := []chart.Fact{{Label: "in the cure", Value: t.curedFor(s)}}
	tiles = append(tiles, chart.Fact{Label: "nitrite went in", Value: span(s.Pieces, ingoing, " ppm", 1)})
	if d := longestSmoke(s, t.Now); d > 0 {
		tiles = append(tiles, chart.Fact{Label: "in the smoke", Value: howLong(d)})
	}
	if peak, ok := hottestCore(s); ok {
		tiles = append(tiles, chart.Fact{Label: "hottest core", Value: t.units().temp(peak)})
	}
	if w, ok := packedWeight(s); ok {
		tiles = append(tiles, chart.Fact{Label: "of fresh, packed", Value: trim(float64(w/sum(s))*100, 1) + " %"})
		if per := t.perWeight(s, w); per != "" {
			tiles = append(tiles, chart.Fact{Label: "to make", Value: per})
		}
	}
	return tiles
}

// span writes a figure of all pieces: one if they agree, else lowest to highest.
func span[P any](pieces []P, of func(P) float64, unit string, decimals int) string {
	low, high := of(pieces[0]), of(pieces[0])
	for _, p := range pieces {
		low, high = min(low, of(p)), max(high, of(p))
	}
	if trim(low, decimals) == trim(high, decimals) {
		return trim(low, decimals) + unit
	}
	return trim(low, decimals) + " to " + trim(high, decimals) + unit
}

func ingoing(p course.PieceState) float64 { return float64(p.Ingoing) }

func (t *Turn) curedFor(s course.State) string {
	end := t.Now
	if m, ok := s.Marked(course.Firm, ""); ok {
		end = m.At
	} else if s.End != "" {
		end = s.Heard()
	}
	return count(int(end.Sub(s.Opened).Hours()/24+0.5), "day")
}

func longestSmoke(s course.State, now time.Time) time.Duration {
	var most time.Duration
	for _, p := range s.Pieces {
		most = max(most, smokedFor(p, now))
	}
	return most.Round(time.Minute)
}

func hottestCore(s course.State) (curemath.Fahrenheit, bool) {
	var most curemath.Fahrenheit
	found := false
	for _, p := range s.Pieces {
		for _, c := range course.Since(s.Cores(p.Letter), p.Marks[course.Smoking].At) {
			if !found || c.Temp > most {
				most, found = c.Temp, true
			}
		}
	}
	return most, found
}

func (t *Turn) wentIn(s course.State) []chart.Fact {
	u := t.units()
	var out []chart.Fact
	for _, p := range s.Pieces {
		what := []string{u.meatExact(p.Weight)}
		if p.Thickness > 0 {
			what = append(what, u.thickness(p.Thickness))
		}
		if p.RindOn {
			what = append(what, "rind on")
		}
		if f := p.Flavouring; f != "" {
			what = append(what, f)
		}
		label := "Belly"
		if len(s.Pieces) > 1 {
			label += " " + p.Letter
		}
		out = append(out, chart.Fact{Label: label, Value: strings.Join(what, ", ")},
			chart.Fact{Label: "Cure", Value: cureOf(s, p.Piece)})
		if f := seasoned(p); f != "" {
			out = append(out, chart.Fact{Label: "Seasoned with", Value: f})
		}
	}
	return out
}

func cureOf(s course.State, p store.Piece) string {
	parts := []string{grams(p.MixWeight, weighedDecimals(p.MixWeight)) + " of " + percent(s.Plan.Mix) + " mix"}
	if p.SaltWeight > 0 {
		parts = append(parts, grams(p.SaltWeight, 0)+" salt")
	}
	if p.Sugar > 0 {
		parts = append(parts, grams(p.Sugar, 0)+" sugar")
	}
	return strings.Join(parts, ", ") + "; " + ppm(p.Ingoing)
}

func (t *Turn) cureFacts(s course.State) []chart.Fact {
	var soaked int
	for _, l := range s.Log {
		if l.Kind == course.Soak {
			soaked += l.Body.Minutes
		}
	}
	out := []chart.Fact{{Label: "Days", Value: fmt.Sprintf("%s of %d planned, flipped %s", t.curedFor(s), s.Days(), times(len(s.Flips)))}}
	if soaked > 0 {
		out = append(out, chart.Fact{Label: "Soaked", Value: howLong(time.Duration(soaked) * time.Minute)})
	}
	return out
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

func (t *Turn) smokeFacts(s course.State) []chart.Fact {
	u := t.units()
	var out []chart.Fact
	for _, p := range s.Pieces {
		m, ok := p.Marks[course.Smoking]
		if !ok || m.Skipped {
			continue
		}
		how := []string{howLong(smokedFor(p, t.Now))}
		for _, key := range []string{"hung", "wood"} {
			if v := m.Body.Extra[key]; v != "" {
				how = append(how, v)
			}
		}
		if f, err := parse.Temperature(m.Body.Extra["ambient_f"], parse.FahrenheitUnit); err == nil {
			how = append(how, u.temp(f)+" outside")
		}
		out = append(out, chart.Fact{Label: "In the smoke" + letterIf(s, p.Letter), Value: strings.Join(how, ", ")})
		if cores := course.Since(s.Cores(p.Letter), m.At); len(cores) > 0 {
			h, err := curemath.HeatSoFar(cores)
			if err == nil {
				out = append(out, chart.Fact{Label: "Core" + letterIf(s, p.Letter), Value: fmt.Sprintf("%s at its hottest, target %s", u.temp(h.Peak.Temp), u.temp(s.Target()))})
			}
		}
	}
	if pits := s.Pits(); len(pits) > 0 && len(out) > 0 {
		low, high := pits[0].Temp, pits[0].Temp
		for _, r := range pits {
			low, high = min(low, r.Temp), max(high, r.Temp)
		}
		f := chart.Fact{Label: "Pit", Value: fmt.Sprintf("%s to %s, ceiling %s", u.temp(low), u.temp(high), u.temp(s.Ceiling())), Verdict: chart.Met}
		if high > s.Ceiling() {
			f.Verdict = chart.Doubtful
		}
		out = append(out, f)
	}
	return out
}

// heatFacts say what the readings show, by rule; they prove no more than that.
func (t *Turn) heatFacts(s course.State, full bool) []chart.Fact {
	var out []chart.Fact
	for _, p := range s.Pieces {
		m, ok := p.Marks[course.Smoking]
		if !ok || m.Skipped {
			continue
		}
		if h, err := curemath.HeatSoFar(course.Since(s.Cores(p.Letter), m.At)); err == nil {
			f := chart.Fact{Label: "Heat" + letterIf(s, p.Letter), Value: heatBrief(h)}
			if full {
				f.Value = heatRules(h) + "; by readings of the core, none of a dry surface"
			}
			if h.ComeUp.State == curemath.ComeUpOver {
				f.Value += "; slow to come up"
				if full {
					f.Value += ": " + t.slowComeUp(h)
				}
			} else if h.Table6_5.Met && h.Home.Met {
				f.Verdict = chart.Met
			}
			out = append(out, f)
		}
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok {
			out = append(out, chart.Fact{Label: "Cooling" + letterIf(s, p.Letter), Value: t.coolingText(c, full), Verdict: coolingSign(c)})
		}
	}
	return out
}

func heatBrief(h curemath.Heat) string {
	return strings.Join([]string{metOrNot("6.5-log", h.Table6_5.Met), metOrNot("7-log", h.Table7.Met), metOrNot("145 °F + 3 min", h.Consumer.Met), metOrNot("160 °F", h.Home.Met)}, ", ")
}

func (t *Turn) coolingText(c curemath.Cooling, full bool) string {
	var parts []string
	for _, w := range c.Windows {
		if !w.End.IsZero() {
			u := t.units()
			said := fmt.Sprintf("in at most %s of %s", howLong(w.Took), howLong(w.Window.Within))
			if w.State != curemath.WindowMet && w.Took > w.Window.Within {
				said = fmt.Sprintf("within %s, but first read there after %s", howLong(w.Window.Within), howLong(w.Took))
			}
			parts = append(parts, fmt.Sprintf("%s to %s %s", u.temp(w.Window.From), u.temp(w.Window.To), said))
		}
	}
	if full {
		return strings.Join(append(parts, verdictText(c)+" ["+c.Rule.Source.String()+"]"), "; ")
	}
	if c.Verdict == curemath.CoolingPassed {
		return strings.Join(append(parts, "rule met"), "; ")
	}
	return strings.Join(append(parts, lowerFirst(verdictShort(c))), "; ")
}

func coolingSign(c curemath.Cooling) chart.Verdict {
	switch c.Verdict {
	case curemath.CoolingPassed:
		return chart.Met
	case curemath.CoolingFailed:
		return chart.Failed
	case curemath.CoolingRunning:
		return chart.Unjudged
	}
	return chart.Doubtful
}

func (t *Turn) yieldFacts(s course.State) []chart.Fact {
	var out []chart.Fact
	y, err := curemath.Yields(weighings(s, ""))
	if err == nil && len(y.Lines) > 1 {
		for _, l := range y.Lines[1:] { // the fresh weight stands above
			out = append(out, chart.Fact{Label: sentenceCase(l.Stage.String()), Value: fmt.Sprintf("%s, %s %% of fresh", t.units().meat(l.Weight), trim(float64(l.OfGreen), 1))})
		}
	}
	if all, currency, ok := t.spent(s); ok {
		f := chart.Fact{Label: "Cost", Value: money(all, currency)}
		if w, ok := packedWeight(s); ok {
			f.Value += ", " + t.perWeight(s, w)
		}
		out = append(out, f)
	}
	return out
}

func sentenceCase(s string) string { return strings.TrimSuffix(sentence(s), ".") }

// cardCaution is how to keep and eat it: the most careful word any of its pieces
// needs.
func (t *Turn) cardCaution(s course.State) string {
	for _, p := range s.Pieces {
		if l, ok := t.lossOfCure(s, p); ok {
			return letterFor(s, p.Letter) + l.said + "."
		}
	}
	for _, p := range s.Pieces {
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok && c.Verdict == curemath.CoolingFailed {
			return fmt.Sprintf("Cooling FAILED “%s” [%s]: throw it away; cooking again does not undo it.", c.Rule.Name, c.Rule.Source.String())
		}
	}
	for _, p := range s.Pieces {
		if c, ok := s.CoolingOf(p.Letter, t.Now); ok && c.Verdict == curemath.CoolingWarmAgain {
			return t.pieceName(s, p.Letter) + " is warm again. " + coolNow
		}
	}
	word, remark := t.cookWord(s, s.Pieces[0]), ""
	for _, p := range s.Pieces {
		if w := t.cookWord(s, p); strings.Contains(w, "cook before eating") {
			word = w
		}
		if r := t.unshown(s, p); r != "" {
			remark = r
		}
	}
	for _, p := range s.Pieces {
		if !curemath.Cured(p.Ingoing) {
			word = t.cookWord(s, p)
		}
	}
	word = remarked(word, remark) + ". "
	if m, ok := s.Marked(course.Packed, ""); ok && !m.Skipped {
		fridge, freezer := course.UseBy(weakest(s.Pieces), m.At, t.Loc)
		if !allFrozen(s) {
			word += "In the fridge until " + dateText(fridge) + "; frozen"
		} else {
			word += "Frozen"
		}
		return word + " best by " + dateText(freezer) + "."
	}
	return word + "Keep it at 40 °F (4 °C) or colder."
}
