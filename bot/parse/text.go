package parse

// mostBytes is the longest text taken apart; a chat message is far shorter.
const mostBytes = 64 << 10

// open takes a text apart, or says that there is nothing in it.
func open(s, example string) (line, *Problem) {
	if len(s) > mostBytes {
		return line{}, &Problem{Kind: TooLong, Said: quote(s), Why: "that is longer than I can read at once", Example: example}
	}
	l := scan(s)
	for len(l.toks) > 0 && l.toks[0].kind == newline {
		l.toks = l.toks[1:]
	}
	for len(l.toks) > 0 && l.toks[len(l.toks)-1].kind == newline {
		l.toks = l.toks[:len(l.toks)-1]
	}
	if len(l.toks) == 0 {
		return l, &Problem{Kind: Empty, Why: "there is nothing to read", Example: example}
	}
	return l, nil
}

// leftover is the problem of tokens after a value that should be alone.
func (l line) leftover(i int, understood, example string) *Problem {
	t := l.at(i)
	p := &Problem{Kind: UnknownWord, Said: l.said(i, len(l.toks)), Why: "I don't know what that adds", Understood: understood, Example: example}
	if t.kind == numeric {
		p.Kind, p.Why = NoUnit, "that number has no unit I can use there"
		if t.num.fault != "" {
			p.Kind, p.Why = NotANumber, t.num.fault
		}
	}
	return p
}

// suggest makes an example of the person's own number, if it is one that works.
func suggest(n float64, unit string, most float64, other string) string {
	if n >= 0.01 && n <= most {
		return plain(n) + " " + unit
	}
	return other
}

// working gives a weight as the person typed it if it can be read by itself.
func working(said, other string) string {
	if _, err := Weight(said); err != nil {
		return other
	}
	return said
}
