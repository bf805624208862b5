package parse

import "strings"

// clockHour is a time of day as it was said.
type clockHour struct {
	hour, minute, second int
	sure                 bool // 18:00, 8 am: no part of the day can shift it
}

// hourAt reads a time of day at token i. A bare number is an hour only if bare
// is set. It gives how many tokens it took, or why it is no time of day.
func (l line) hourAt(i int, bare bool) (clockHour, int, string) {
	t := l.at(i)
	if v, n, ok := l.hourWord(i); ok {
		return l.meridiem(clockHour{hour: v}, i, i+n)
	}
	if t.kind != numeric || t.signed {
		return clockHour{}, 0, ""
	}
	if h, m, ok := pointed(t.text); ok { // 8.30
		if !bare && l.meridiemAt(i+1) == "" && m >= 1 && m <= 12 && h >= 1 {
			return clockHour{}, 1, "that could be a time or a date; write " + t.text[:len(t.text)-3] + ":" + t.text[len(t.text)-2:] + " or " + t.text + "."
		}
		return l.meridiem(clockHour{hour: h, minute: m, sure: h > 12}, i, i+1)
	}
	if !t.num.whole || len(t.text) > 2 {
		return clockHour{}, 0, ""
	}
	h := clockHour{hour: int(t.num.value)}
	next, after := l.at(i+1), l.at(i+2)
	switch {
	case next.is(":") && next.glued && after.kind == numeric:
		return l.colon(h, i)
	case next.is("h") && next.glued && after.kind == numeric && after.glued: // 18h30
		return l.minutes(h, i, i+2, i+3)
	case next.is("h") && next.glued:
		h.sure = true
		return l.meridiem(h, i, i+2)
	case next.is("o'clock"):
		return l.meridiem(h, i, i+2)
	case l.meridiemAt(i+1) != "":
		return l.meridiem(h, i, i+1)
	}
	if _, _, unit := l.unitAt(i + 1); l.partAfter(i+1) == noPart && (unit || !bare) {
		return clockHour{}, 0, ""
	}
	return l.meridiem(h, i, i+1)
}

// partAfter gives the part of the day right after an hour: 8 in the evening.
func (l line) partAfter(i int) dayPart {
	if l.at(i).is("in") || l.at(i).is("at") {
		i++
	}
	if l.at(i).is("the") {
		i++
	}
	return partNamed(l.at(i).text)
}

// hourWord reads "eight" before pm or o'clock.
func (l line) hourWord(i int) (int, int, bool) {
	v, ok := smallNumber(l.at(i).text)
	if !ok || l.at(i).kind != word || v > 12 || l.at(i).text == "a" || l.at(i).text == "an" {
		return 0, 0, false
	}
	switch {
	case l.at(i + 1).is("o'clock"):
		return int(v), 2, true
	case l.meridiemAt(i+1) != "":
		return int(v), 1, true
	}
	return 0, 0, false
}

// pointed reads 8.30.
func pointed(s string) (h, m int, ok bool) {
	a, b, found := strings.Cut(s, ".")
	if !found || len(a) == 0 || len(a) > 2 || len(b) != 2 {
		return 0, 0, false
	}
	return int(float(a)), int(float(b)), true
}

// colon reads 18:00 and 18:00:30.
func (l line) colon(h clockHour, i int) (clockHour, int, string) {
	sep, sec := l.at(i+3), l.at(i+4)
	if !sep.is(":") || !sep.glued || sec.kind != numeric {
		return l.minutes(h, i, i+2, i+3)
	}
	// Parts of a second are dropped.
	if whole, _, _ := strings.Cut(sec.text, "."); sec.num.fault != "" || len(whole) != 2 || sec.num.value >= 60 {
		return h, 5, "seconds run from 00 to 59"
	}
	h.second = int(sec.num.value)
	return l.minutes(h, i, i+2, i+5)
}

// minutes reads the minutes at token k of the time from token i up to end.
func (l line) minutes(h clockHour, i, k, end int) (clockHour, int, string) {
	t := l.at(k)
	if !t.num.whole || len(t.text) != 2 {
		return h, end - i, "minutes are two digits, 00 to 59"
	}
	h.minute = int(t.num.value)
	// 08:30 is on the 24-hour clock; 8:30 may still be in the evening.
	h.sure = h.hour > 12 || strings.HasPrefix(l.at(i).text, "0")
	return l.meridiem(h, i, end)
}

// meridiemAt reads am, pm, a.m. and p.m.
func (l line) meridiemAt(i int) string {
	t := l.at(i)
	switch {
	case t.is("am"), t.is("pm"):
		return t.text
	case (t.is("a") || t.is("p")) && l.at(i+1).is(".") && l.at(i+2).is("m"):
		return t.text + "m"
	}
	return ""
}

// meridiem ends a time that has been read up to token k: it adds am or pm and
// checks the range.
func (l line) meridiem(h clockHour, i, k int) (clockHour, int, string) {
	half := l.meridiemAt(k)
	if half != "" {
		k++
		for l.at(k).is(".") || l.at(k).is("m") {
			k++
		}
	}
	n := k - i
	switch {
	case h.minute > 59:
		return h, n, "minutes run from 00 to 59"
	case half != "" && (h.hour < 1 || h.hour > 12):
		return h, n, "with am or pm the hours run from 1 to 12"
	case h.hour > 23:
		return h, n, "hours run from 0 to 23"
	case half == "pm" && h.hour < 12:
		h.hour += 12
	case half == "am" && h.hour == 12:
		h.hour = 0
	}
	h.sure = h.sure || half != ""
	return h, n, ""
}

// within sets a time into a part of the day: 8 in the evening is 20:00.
func (h clockHour) within(p dayPart) (clockHour, string) {
	const which = "I can't tell which hour that is"
	switch {
	case p == noPart:
		return h, ""
	case p == morning && h.hour >= 12:
		return h, which
	case p == morning || h.sure || h.hour > 12:
		return h, ""
	case p == afternoon && (h.hour == 12 || h.hour <= 6 && h.hour > 0):
		h.hour = h.hour%12 + 12
	case (p == evening || p == night) && h.hour >= 5 && h.hour < 12:
		h.hour += 12
	default:
		return h, which
	}
	return h, ""
}
