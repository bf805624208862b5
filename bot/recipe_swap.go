package bot

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/store"
)

// takeRecipe makes a recipe shared here the sender's own, with credit, once it has
// been worked out anew under the rules here.
func (t *Turn) takeRecipe(args string) (reply.Reply, error) {
	var r reply.Reply
	kept, byCode, err := t.offered(args)
	if err != nil {
		return r, err
	}
	if kept.Owner == t.Me.Key {
		var shared []store.Recipe
		if !byCode {
			if shared, err = t.Tx.RecipesIn(t.Conv.ID, t.Conv.Address.Lane()); err != nil {
				return r, err
			}
		}
		other := false
		for _, k := range shared { // one of mine has the same name: take theirs as the next version
			if k.Fold == kept.Fold && k.Owner != t.Me.Key {
				kept, other = k, true
			}
		}
		if !other {
			r.Say(reply.B(title(kept)), " is yours already.")
			return r, nil
		}
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	c, err := t.checkRecipe(rec)
	if err != nil {
		return r, unsafe(rec.Name, err)
	}
	rec.Credit = credit(rec.Credit, kept.OwnerName)
	mine, err := t.keepRecipe(rec)
	if err != nil {
		return r, err
	}
	r.Say("Taken: ", reply.B(title(mine)), byWhom(rec, mine, t.Me.Key), ".")
	t.sayMinds(&r, rec)
	t.sayChecked(&r, rec, c)
	return r, nil
}

// sayChecked says what a recipe comes to under the rules here, and how to use it.
func (t *Turn) sayChecked(r *reply.Reply, rec exchange.Recipe, c checked) {
	r.Say(fmt.Sprintf("Worked out anew on 1 kg of meat: %s mix, %s salt, %s sugar; %s nitrite goes in, the limit is %s (rules: %s).",
		grams(c.weigh.Mix, weighedDecimals(c.weigh.Mix)), grams(c.weigh.Salt, 0), grams(c.weigh.Sugar, 0), ppm(c.ingoing), c.limit, t.rules().ID))
	r.Say("To use it: ", reply.Type(fmt.Sprintf(`use "%s" %s`, rec.Name, t.exampleWeight())))
}

// unsafe says why a recipe was not taken. What the sums refuse keeps its reason.
func unsafe(name string, err error) error {
	refused := &Error{Kind: Dangerous}
	if !errors.As(err, &refused) {
		if refused = fromRefusal(err); refused == nil {
			return err
		}
	}
	return &Error{Kind: refused.Kind, Why: fmt.Sprintf("“%s” was not taken: %s", clip(name, longestName), refused.Why), Example: "caution nitrite"}
}

// export gives a recipe as a file.
func (t *Turn) export(args string) (reply.Reply, error) {
	var r reply.Reply
	kept, _, err := t.findRecipe("export", args)
	if err != nil {
		return r, err
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	rec.Credit = credit(rec.Credit, kept.OwnerName)
	if c, err := t.checkRecipe(rec); err == nil {
		rec.Example = &exchange.Example{Mix: c.weigh.Mix, Salt: c.weigh.Salt, Sugar: c.weigh.Sugar}
	}
	file, err := exchange.Write(rec)
	if err != nil {
		return r, err
	}
	r.Say(reply.B(title(kept)), " as a file. Whoever sends it to me with ", reply.Type("import"), " has it worked out anew under their own rules.")
	r.Files = []reply.File{{Name: fileName(kept.Name) + ".json", Type: "application/json", Data: file}}
	return r, nil
}

func fileName(name string) string {
	s := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r == ' ', r == '-':
			return '-'
		}
		return -1
	}, fold(name))
	return orElse(strings.Trim(s, "-"), "recipe")
}

// importRecipe reads a recipe from the file that came with the message.
func (t *Turn) importRecipe(string) (reply.Reply, error) {
	var r reply.Reply
	var file *reply.File
	for i, f := range t.Msg.Files {
		if isJSON(f) {
			file = &t.Msg.Files[i]
		}
	}
	if file == nil {
		return r, &Error{Kind: BadInput, Why: "Attach the recipe's file (.json) to the message, with the word import.", Example: "import"}
	}
	rd, err := exchange.NewReader()
	if err != nil {
		return r, err
	}
	rec, err := rd.Read(file.Data)
	if err != nil {
		return r, &Error{Kind: BadInput, Why: err.Error() + " Nothing was kept.", Example: "import"}
	}
	if strings.ContainsAny(rec.Name, "0123456789") {
		rec.Name = strings.Trim(strings.Map(func(c rune) rune {
			if c >= '0' && c <= '9' {
				return -1
			}
			return c
		}, rec.Name), " ")
		rec.Name = orElse(rec.Name, "imported")
	}
	c, err := t.checkRecipe(rec)
	if err != nil {
		return r, unsafe(rec.Name, err)
	}
	example := rec.Example
	rec.Example = nil
	mine, err := t.keepRecipe(rec)
	if err != nil {
		return r, err
	}
	r.Say("Kept ", reply.B(title(mine)), byWhom(rec, mine, t.Me.Key), ":")
	t.sayRecipe(&r, rec)
	t.sayChecked(&r, rec, c)
	sayExample(&r, example, c.weigh)
	return r, nil
}

func isJSON(f reply.File) bool {
	return strings.HasSuffix(strings.ToLower(f.Name), ".json") || strings.HasPrefix(f.Type, "application/json")
}

// sayExample says where the amounts written in a file are not what its own shares
// come to: someone may have weighed by them.
func sayExample(r *reply.Reply, e *exchange.Example, w curemath.Portion) {
	if e == nil {
		return
	}
	for _, c := range []struct {
		what        string
		said, sum   curemath.Grams
		tolerance   curemath.Grams
		mustBeRight bool
	}{{"curing mix", e.Mix, w.Mix, 0.15, true}, {"salt", e.Salt, w.Salt, 1, false}, {"sugar", e.Sugar, w.Sugar, 1, false}} {
		if c.said == 0 || math.Abs(float64(c.said-c.sum)) <= float64(c.tolerance) {
			continue
		}
		warn := ""
		if c.mustBeRight {
			warn = " Whoever weighed by the file's figure had another dose of nitrite: tell them."
		}
		r.Say(fmt.Sprintf("The file says %s g of %s on a kilogram; its own shares come to %s g, and I go by those.%s", trim(float64(c.said), 2), c.what, trim(float64(c.sum), 2), warn))
	}
}
