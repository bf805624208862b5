package bot

import (
	"fmt"
	"regexp"
	"strings"

	"larderhand/bot/parse"
	"larderhand/curemath"
)

// stockSaid is a count or a purchase as somebody said it.
type stockSaid struct {
	item   string // of stockItems
	weight curemath.Grams
	paid   curemath.Money
	// price is the price as typed, with its sign; empty if none was.
	price string
	more  bool   // a plus before the weight: it comes on top
	mind  string // what must be said of how it was read
}

const stockExample = "stock mix 500 g"

var (
	paidFor = regexp.MustCompile(`(?i)^(.*?)[\s,;]+(?:for|at|cost|paid)\s+((?:[$€£]|eur|usd)?\s*(\d{1,6}(?:[.,]\d{1,2})?)\s*(?:[$€£]|eur|euros?|usd|dollars?|bucks|pounds? sterling)?)\s*$`)
	// signedPrice is a price with no word before it: its sign tells.
	signedPrice = regexp.MustCompile(`(?i)^(.*?)[\s,;]+((?:[$€£]\s*(\d{1,6}(?:[.,]\d{1,2})?))|(?:(\d{1,6}(?:[.,]\d{1,2})?)\s*(?:[$€£]|eur\b|euros?\b|usd\b|dollars?\b|bucks\b)))\s*$`)
)

// readStock reads "mix 500 g", "2 lb salt for 1.80", "pink salt 4oz $6": the thing
// and its weight in either order, and the price last. none allows a count of
// nothing.
func readStock(p curemath.Pantry, args string, none bool) (stockSaid, error) {
	text, price, amount := args, "", ""
	if m := paidFor.FindStringSubmatch(args); m != nil {
		text, price, amount = m[1], m[2], m[3]
	} else if m := signedPrice.FindStringSubmatch(args); m != nil {
		text, price, amount = m[1], m[2], m[3]+m[4]
	}
	s := stockSaid{price: strings.TrimSpace(price)}
	if amount != "" {
		paid, err := decimal(amount)
		if err != nil {
			return s, &Error{Kind: BadInput, Why: "I can't read that price.", Example: "bought mix 250 g for 4.20"}
		}
		s.paid = curemath.Money(paid)
	}
	name, weight, err := nameAndWeight(text, none)
	var item error
	if s.item, s.mind, item = stockItem(p, name); item != nil {
		return s, item
	}
	if err != nil {
		return s, err
	}
	s.weight, s.more = weight.grams, weight.plus
	return s, nil
}

// saidWeight is a weight with the plus that may stand before it.
type saidWeight struct {
	grams curemath.Grams
	plus  bool
}

// nameAndWeight parts a thing from its weight, which stands before or after it.
func nameAndWeight(text string, none bool) (name string, w saidWeight, err error) {
	words := strings.Fields(text)
	read := func(part []string) (saidWeight, error) {
		said, plus := strings.CutPrefix(strings.Join(part, " "), "+")
		switch z := strings.ToLower(strings.TrimSpace(said)); {
		case none && (z == "0" || z == "none" || z == "empty" || z == "0 g" || z == "gone"):
			return saidWeight{}, nil
		}
		g, err := parse.Weight(said)
		return saidWeight{g, plus}, err
	}
	for i := 1; i < len(words); i++ { // the thing first, the longest weight after it
		if w, err := read(words[i:]); err == nil {
			return strings.Join(words[:i], " "), w, nil
		}
	}
	for i := len(words) - 1; i > 0; i-- { // the longest weight first
		if w, err := read(words[:i]); err == nil {
			return strings.TrimPrefix(strings.Join(words[i:], " "), "of "), w, nil
		}
	}
	// Say what is wrong with the weight of a thing that is known by one word.
	word, rest := firstWord(text)
	if rest == "" {
		rest = text
	}
	if _, err = read([]string{strings.TrimPrefix(rest, "mix ")}); err == nil {
		err = &Error{Kind: BadInput, Why: fmt.Sprintf("How much %s?", word), Example: stockExample}
	}
	return word, saidWeight{}, err
}

// stockItem is what is counted under a name: any curing mix with nitrite only, any
// salt, any dry sugar.
func stockItem(p curemath.Pantry, name string) (item, mind string, err error) {
	switch strings.ToLower(name) {
	case "mix", "cure", "curing", "curing mix":
		return "mix", "", nil
	case "salt", "sugar":
		return strings.ToLower(name), "", nil
	}
	r := p.Read(name)
	switch {
	case r.Mix != nil && r.Mix.Kind == curemath.HoldsNone:
		return "salt", "Counted as salt: there is no nitrite in it and it cures nothing.", nil
	case r.Mix != nil && r.Mix.ID == "pink-salt":
		return "mix", "Counted as curing mix. If its packet names no nitrite it is only pink table salt, and cures nothing: count it as salt.", nil
	case r.Mix != nil && r.Mix.Kind == curemath.HoldsNitrite && r.Mix.Mix.Nitrate == 0:
		return "mix", "", nil
	case r.Cures:
		return "", "", &Error{Kind: BadInput, Why: fmt.Sprintf("“%s” is not a curing mix with nitrite only, as bacon takes: I keep no count of it.", clip(name, 30)), Example: stockExample}
	case r.Kind == curemath.KindSalt:
		return "salt", "", nil
	case r.Kind == curemath.KindSugar:
		return "sugar", "", nil
	}
	return "", "", &Error{Kind: BadInput, Why: fmt.Sprintf("I keep count of curing mix, salt and sugar, not of “%s”.", clip(name, 30)), Example: stockExample}
}
