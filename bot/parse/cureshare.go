package parse

// settle pairs every share with the word it belongs to. Within a stretch without
// commas, "and" or anything else between, a word may stand before its number or
// after it; if the stretch can be paired in two ways it is asked about.
func (r *cureReader) settle() *Problem {
	r.done = true
	r.dropNitriteOfMix()
	for i := 0; i < len(r.items); {
		if k := r.items[i].kind; k != keyItem && k != shareItem {
			i++
			continue
		}
		var run []int
		for ; i < len(r.items) && inRun(r.items[i].kind); i++ {
			if k := r.items[i].kind; k == keyItem || k == shareItem {
				run = append(run, i)
			}
		}
		if p := r.settleRun(run, i); p != nil {
			return p
		}
	}
	return nil
}

func inRun(k itemKind) bool {
	return k == keyItem || k == shareItem || k == softItem || k == hardItem
}

// dropNitriteOfMix takes the word away where it only says what the mix holds:
// mix 6.25 % nitrite, mix nitrite 6.25 %.
func (r *cureReader) dropNitriteOfMix() {
	mix := -1
	for i := range r.items {
		it := &r.items[i]
		switch {
		case it.kind == keyItem && it.key == mixKey:
			mix = i
		case it.kind == keyItem && it.key == nitriteKey && mix >= 0 && !r.ppmFollows(i):
			it.kind = hardItem
			mix = -1
		case it.kind == softItem, it.kind == hardItem:
		case it.kind == shareItem && it.qty.unit.dim == share:
		default:
			mix = -1
		}
	}
}

func (r *cureReader) ppmFollows(i int) bool {
	for i++; i < len(r.items); i++ {
		switch it := r.items[i]; it.kind {
		case softItem, hardItem:
		case shareItem:
			return it.qty.unit.dim != share
		default:
			return false
		}
	}
	return false
}

// longestRun is how many words and numbers are paired at most: there are six
// settings.
const longestRun = 12

// pairing is one way to read a run: for each number the word it goes with, and
// how many words were left over.
type pairing struct {
	keys []key // parallel to the run; noKey for a word left over
	with []int // parallel: the index of the partner, -1 if none
	left int
}

func (r *cureReader) settleRun(run []int, end int) *Problem {
	if len(run) > longestRun {
		first, last := r.items[run[0]], r.items[run[len(run)-1]]
		return &Problem{Kind: TooMany, Said: r.said(first.from, last.to), Why: "that is more than I can sort out at once", Example: "5 lb salt 2.5 % sugar 1 %"}
	}
	if p := r.weightForShare(run, end); p != nil {
		return p
	}
	var best []pairing
	r.pairings(run, 0, pairing{}, &best)
	switch {
	case len(best) == 0:
		return r.unpaired(run)
	case len(best) > 1:
		first, last := r.items[run[0]], r.items[run[len(run)-1]]
		return &Problem{Kind: Ambiguous, Said: r.said(first.from, last.to), Why: "I can't tell which number goes with which word; put commas between", Example: "nitrite 120 ppm, ascorbate 500 ppm"}
	}
	return r.apply(run, best[0])
}

// pairings collects the readings of run from position k on that leave the fewest
// words over.
func (r *cureReader) pairings(run []int, k int, so pairing, best *[]pairing) {
	if len(*best) > 0 && so.left > (*best)[0].left {
		return
	}
	if k == len(run) {
		if len(*best) > 0 && so.left < (*best)[0].left {
			*best = nil
		}
		*best = append(*best, so)
		return
	}
	add := func(n int, key key, with int, left int) {
		next := pairing{left: so.left + left}
		next.keys = append(append(next.keys, so.keys...), key)
		next.with = append(append(next.with, so.with...), with)
		if n == 2 {
			next.keys = append(next.keys, key)
			next.with = append(next.with, k)
		}
		r.pairings(run, k+n, next, best)
	}
	it := r.items[run[k]]
	if k+1 < len(run) {
		other := r.items[run[k+1]]
		switch {
		case it.kind == keyItem && other.kind == shareItem && takes(it.key, other.qty, true):
			add(2, it.key, k+1, 0)
		case it.kind == shareItem && other.kind == keyItem && takes(other.key, it.qty, false):
			add(2, other.key, k+1, 0)
		}
	}
	switch {
	case it.kind == shareItem && it.qty.unit.dim == parts:
		add(1, nitriteKey, -1, 1)
	case it.kind == keyItem && (it.key == saltKey || it.key == sugarKey || it.key == mixKey):
		add(1, noKey, -1, 1)
	}
}

// takes says whether a setting can be given by the quantity. A bare number needs
// its word in front.
func takes(k key, q quantity, wordFirst bool) bool {
	switch q.unit.dim {
	case noDimension:
		return wordFirst
	case share:
		return k != nitriteKey
	case parts:
		return k == nitriteKey || k == ascorbateKey
	}
	return false
}

// apply turns a pairing into settings; words left over become plain words.
func (r *cureReader) apply(run []int, so pairing) *Problem {
	for k, i := range run {
		it := &r.items[i]
		switch {
		case it.kind == keyItem && so.keys[k] == noKey:
			it.kind = wordItem
			if it.key == mixKey && !r.afterWord(i) {
				it.kind = hardItem
			}
		case it.kind == keyItem:
			it.kind, it.key = hardItem, noKey
		default:
			if p := r.set(it, so.keys[k]); p != nil {
				return p
			}
		}
	}
	return nil
}

// afterWord says whether a flavouring word stands right before the item, as in
// "spice mix".
func (r *cureReader) afterWord(i int) bool { return i > 0 && r.items[i-1].kind == wordItem }

// set checks the share for its setting.
func (r *cureReader) set(it *item, k key) (p *Problem) {
	if k == nitriteKey || k == ascorbateKey {
		it.ppm, p = r.ppm(it.qty)
	} else {
		it.percent, p = r.percent(it.qty)
	}
	if p != nil {
		p.Example = k.example()
		return p
	}
	it.kind, it.key = setItem, k
	return nil
}

// weightForShare refuses salt 30 g: shares go by percent, and the 30 g must not
// become a piece of meat.
func (r *cureReader) weightForShare(run []int, end int) *Problem {
	last := r.items[run[len(run)-1]]
	if last.kind == keyItem && end < len(r.items) && r.items[end].kind == weightItem {
		w := r.items[end]
		return &Problem{Kind: NotAPercent, Said: r.said(last.from, w.to), Why: last.key.byWeight(), Example: last.key.example()}
	}
	return nil
}

// unpaired names the first word or number of a run that found no partner.
func (r *cureReader) unpaired(run []int) *Problem {
	for k, i := range run {
		it := r.items[i]
		said := r.said(it.from, it.to)
		partner := k+1 < len(run) && r.items[run[k+1]].kind != it.kind || k > 0 && r.items[run[k-1]].kind != it.kind
		switch {
		case it.kind == shareItem && it.qty.unit.dim == share && !r.keyBeside(run, k):
			return &Problem{Kind: Ambiguous, Said: said, Why: "a share of what?", Example: "salt " + suggest(it.qty.num.value, "%", 10, "2.5 %")}
		case it.kind == shareItem && it.qty.unit.dim == noDimension && !r.keyBefore(run, k):
			return r.noUnit(it)
		case it.kind == keyItem && !partner:
			return &Problem{Kind: NoUnit, Said: said, Why: it.key.name() + " needs a number", Example: it.key.example()}
		}
	}
	first, last := r.items[run[0]], r.items[run[len(run)-1]]
	p := &Problem{Kind: Ambiguous, Said: r.said(first.from, last.to), Why: "I can't tell which number goes with which word", Example: cureExample}
	for _, i := range run {
		if it := r.items[i]; it.kind == keyItem {
			p.Example = it.key.example()
			break
		}
	}
	return p
}

func (r *cureReader) keyBefore(run []int, k int) bool {
	return k > 0 && r.items[run[k-1]].kind == keyItem
}

func (r *cureReader) keyBeside(run []int, k int) bool {
	return r.keyBefore(run, k) || k+1 < len(run) && r.items[run[k+1]].kind == keyItem
}

// noUnit is the problem of a bare number beside other words.
func (r *cureReader) noUnit(it item) *Problem {
	p := r.massProblem(it.qty)
	if p == nil {
		p = &Problem{Kind: NoUnit, Said: r.said(it.from, it.to), Why: "that number has no unit", Example: cureExample}
	}
	next := r.at(it.to)
	switch {
	case p.Kind == UnknownUnit && !nearlyMass(next.text):
		p.Kind, p.Said, p.Why = NoUnit, r.said(it.from, it.to), "is that pounds or kilograms?"
		if r.hasWeight() {
			p.Why = "that number has no unit"
		}
	case p.Kind == NoUnit && r.hasWeight():
		p.Why = "that number has no unit"
	}
	if p.Kind == NoUnit {
		p.Example = suggest(it.qty.num.value, "lb", 200, cureExample)
		if r.hasWeight() {
			p.Example = cureExample
		}
	}
	return p
}

func (r *cureReader) hasWeight() bool {
	for _, it := range r.items {
		if it.kind == weightItem {
			return true
		}
	}
	return false
}
