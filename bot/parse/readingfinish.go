package parse

import "strings"

// time reads when the readings were taken, if that stands at token i.
func (r *readingLine) time(i int) (int, *Problem) {
	k := i
	if t := r.line.at(i); t.is("at") || t.is("@") {
		k++
	}
	if !r.timely(k, k > i) {
		return i, nil
	}
	at, next, p := r.momentAmong(k, r.now, backward, true)
	switch {
	case p != nil:
		p.Example = "20 min ago pit 148 core 121"
		return i, p.understood(r.understood(i))
	case next == k:
		return i, nil
	case r.hasTime:
		return i, r.problem(SaidTwice, i, next, "one time for a line, please")
	}
	r.at, r.hasTime = at, true
	return next, nil
}

// timely says whether a time begins at token i: a clock time, a length of time
// that is over, or a word for a day. After "at" a bare hour will do, unless a
// spot waits for its number.
func (r *readingLine) timely(i int, at bool) bool {
	t, next := r.line.at(i), r.line.at(i+1)
	if t.kind == word {
		switch t.text {
		case "last", "this":
			_, day := weekday(next.text)
			return day || partNamed(next.text) != noPart
		case "yesterday", "today", "noon", "midday", "midnight", "half", "quarter", "an", "just", "now":
			return true
		}
		if _, ok := weekday(t.text); ok {
			return true
		}
		q, ok := r.quantityAt(i)
		return ok && q.unit.dim == span
	}
	if t.kind != numeric || t.signed {
		return false
	}
	if next.is(":") && next.glued && r.line.at(i+2).glued || r.meridiemAt(i+1) != "" {
		return true
	}
	if t.num.whole && len(t.text) == 4 && next.is("-") && next.glued {
		return true // 2027-03-01 14:30
	}
	if q, ok := r.quantityAt(i); ok && q.unit.dim == span && len(r.line.at(q.to-1).text) > 1 {
		return true // 20 min ago
	}
	if q, ok := r.quantityAt(i); ok && q.unit.dim == span && r.line.at(q.to).is("ago") {
		return true
	}
	return at && len(r.pending) == 0
}

// finish gives the temperatures their scale and sorts them by piece.
func (r *readingLine) finish() ([]Reading, *Problem) {
	scale, p := r.scale()
	if p != nil {
		return nil, p
	}
	at := r.now
	if r.hasTime {
		at = r.at
	}
	out := []Reading{{At: at, HasTime: r.hasTime}}
	index := map[string]int{"": 0}
	for _, v := range r.values {
		f, p := r.temperature(v.q, scale)
		if p != nil {
			p.Example = readingExample
			return nil, p.understood(r.understood(v.q.from))
		}
		k, ok := index[v.piece]
		if !ok {
			k = len(out)
			index[v.piece] = k
			out = append(out, Reading{Piece: v.piece, At: at, HasTime: r.hasTime})
		}
		slot := &out[k].Core
		if v.place == pit {
			slot = &out[k].Pit
		}
		if *slot != nil {
			return nil, r.problem(SaidTwice, v.q.from, v.q.to, "that was read once already in this line; one line for each time, please")
		}
		*slot = ptr(f)
	}
	if out[0].Pit == nil && out[0].Core == nil {
		out = out[1:]
	}
	return out, nil
}

// scale gives the scale for numbers without a sign: the one that others in the
// line have, else the conversation's.
func (r *readingLine) scale() (TempUnit, *Problem) {
	said, mixed := UnitUnknown, false
	for _, v := range r.values {
		if s := v.q.scale(); s != UnitUnknown {
			mixed = mixed || said != UnitUnknown && said != s
			said = s
		}
	}
	if said == UnitUnknown {
		return r.def, nil
	}
	if mixed {
		for _, v := range r.values {
			if v.q.scale() == UnitUnknown {
				return said, r.problem(Ambiguous, v.q.from, v.q.to, "is that °F or °C?")
			}
		}
	}
	return said, nil
}

// understood says what was read before token i: "pit 148, core a 121".
func (r *readingLine) understood(i int) string {
	var got []string
	for _, v := range r.values {
		if v.q.from >= i {
			break
		}
		s := "pit "
		if v.place == core {
			s = "core "
		}
		if v.piece != "" {
			s += v.piece + " "
		}
		got = append(got, s+plain(v.q.num.value))
		if len(got) == 6 {
			break
		}
	}
	if r.hasTime && len(got) > 0 {
		got = append(got, "at "+r.at.Format("15:04"))
	}
	return strings.Join(got, ", ")
}
