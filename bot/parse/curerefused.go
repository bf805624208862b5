package parse

import "strings"

// refused is a thing said in a cure line that is no cure and must never pass for a
// flavouring.
type refused struct {
	words []string // each may have several spellings, parted by |
	why   string
	past  string // it is something else where this word comes next: "just salt and pepper"
}

const (
	refusedExample = "5 lb juniper 1.5 in"

	noCure = "without nitrite it is no cure: smoke under 140 °F (60 °C) is warm and airless, where botulism starts (from memory), so I work nothing out for that. Meat for fresh eating needs no sum of mine"
	celery = "celery brings nitrate and nitrite of a strength no packet tells, so no sum holds for it; weigh a curing mix whose percent is on its packet"
	petre  = "that is nitrate, " + petreRule

	petreRule = "which is not for bacon by any method (9 CFR 424.22(b), as a state extension bulletin repeats it); weigh a curing mix with nitrite only"
)

func refusals() []refused {
	no := "no|without|zero|skip|omit|minus|sans|forget"
	return []refused{
		{words: []string{no, "cure|cures|nitrites|mix"}, why: noCure},
		{words: []string{no, "curing", "mix|salt|salts|powder"}, why: noCure},
		{words: []string{no, "pink", "salt"}, why: noCure},
		{words: []string{no, "pink", "curing", "salt"}, why: noCure},
		{words: []string{no, "prague", "powder"}, why: noCure},
		{words: []string{no, "any|the", "cure|nitrite|nitrites|mix"}, why: noCure},
		{words: []string{no, "any|the", "curing|pink", "mix|salt|salts"}, why: noCure},
		{words: []string{"uncured|nitrite-free|cure-free|non-cured"}, why: noCure},
		{words: []string{"nitrite|cure", "free"}, why: noCure},
		{words: []string{"just|only", "salt"}, why: noCure, past: "and|&|+"},
		{words: []string{"just|only", "sea|kosher|table|plain|rock", "salt"}, why: noCure, past: "and|&|+"},
		{words: []string{"salt", "only"}, why: noCure},
		{words: []string{"celery", "powder|juice|extract|concentrate"}, why: celery},
		{words: []string{"celery-powder|celery-juice"}, why: celery},
		{words: []string{"vegetable", "nitrite|cure"}, why: celery},
		{words: []string{"saltpetre|saltpeter|salpetre|salpeter|saltpete|salt-petre|salt-peter"}, why: petre},
		{words: []string{"salt", "petre|peter"}, why: petre},
		{words: []string{"potassium|sodium|chile|chili", "nitrate|saltpetre|saltpeter"}, why: petre},
		{words: []string{"e252|e251"}, why: petre},
	}
}

// refusedAt says that what begins at token i is none of a cure's business.
func (l line) refusedAt(i int) *Problem {
	if l.at(i).kind == numeric {
		return nil
	}
	for _, r := range refusals() {
		n := 0
		for n < len(r.words) && anyOf(r.words[n], l.at(i+n)) {
			n++
		}
		if n < len(r.words) || r.past != "" && anyOf(r.past, l.at(i+n)) {
			continue
		}
		return &Problem{Kind: NoCure, Said: l.said(i, i+n), Why: r.why, Example: refusedExample}
	}
	return nil
}

func anyOf(words string, t token) bool {
	for t.kind == word || t.kind == mark {
		one, rest, more := strings.Cut(words, "|")
		if one == t.text {
			return true
		}
		if !more {
			break
		}
		words = rest
	}
	return false
}

// RefusedFlavouring is the problem of a flavouring that is nitrate, celery or the
// leaving out of the cure; nil if there is nothing against it.
func RefusedFlavouring(s string) *Problem {
	l := scan(s)
	for i := range l.toks {
		if p := l.refusedAt(i); p != nil {
			return p
		}
	}
	return nil
}
