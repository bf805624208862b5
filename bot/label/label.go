// Package label writes the label of a packed piece, as text and as a PDF to
// print. It is pure: the same label gives the same bytes; dates are handed in.
//
// What must stand on a label is a matter of local food law, which the package
// does not know; it sets out what it is given so that nothing of it is cut off.
// A list of ingredients too long for its label makes the label higher.
package label

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"larderhand/curemath"
)

// DefaultStatement stands on every label whose readings did not show enough heat
// at the core; the caller decides.
const DefaultStatement = "Cured, smoked; cook before eating"

// DefaultKeep is how to keep the piece. The temperature is the fridge line of the
// US cold storage chart, 40 °F.
const DefaultKeep = "Keep refrigerated (4 °C / 40 °F or colder) or frozen"

// Label is what is printed for one piece. Dates are days: they are written as
// their own location has them.
type Label struct {
	Product      string
	Statement    string // empty: DefaultStatement
	Ingredients  []Ingredient
	Allergens    []string // words to stand out among the ingredients: mustard, soy, sesame
	Packed       time.Time
	UseByFridge  time.Time // zero: left out
	UseByFreezer time.Time // zero: left out
	Batch        int
	Piece        string // letter; may be empty
	Net          curemath.Grams
	Keep         string // empty: DefaultKeep
	From         string // who packed it; may be empty
}

// Ingredient is what went in, at the weight it went in. A weight that is not
// known (zero, or not a number) puts it at the end of the list, never off it.
type Ingredient struct {
	Name   string
	Weight curemath.Grams
}

// Incomplete is the error for a label that lacks what no label may lack.
type Incomplete struct {
	Missing []string // in words: "a packed date"
}

func (e *Incomplete) Error() string {
	return "the label still lacks " + strings.Join(e.Missing, ", ")
}

const dateForm = "2 Jan 2006"

// heaviest is past any piece that hangs in a backyard.
const heaviest = curemath.Ton

func (l Label) check() error {
	var missing []string
	need := func(ok bool, what string) {
		if !ok {
			missing = append(missing, what)
		}
	}
	need(plain(l.Product) != "", "a product name")
	need(len(Sorted(l.Ingredients)) > 0, "ingredients")
	need(!l.Packed.IsZero(), "a packed date")
	need(l.Net >= 1 && l.Net <= heaviest, "a net weight")
	if !l.Packed.IsZero() {
		need(l.UseByFridge.IsZero() || !l.UseByFridge.Before(l.Packed), "a use-by date in the fridge after the packed date")
		need(l.UseByFreezer.IsZero() || !l.UseByFreezer.Before(l.Packed), "a use-by date in the freezer after the packed date")
	}
	if len(missing) > 0 {
		return &Incomplete{Missing: missing}
	}
	return nil
}

func (l Label) statement() string {
	if s := plain(l.Statement); s != "" {
		return s
	}
	return DefaultStatement
}

func (l Label) keep() string {
	if s := plain(l.Keep); s != "" {
		return s
	}
	return DefaultKeep
}

func (l Label) batch() string {
	s := fmt.Sprintf("Batch %d", l.Batch)
	if p := plain(l.Piece); p != "" {
		s += ", piece " + strings.ToUpper(p)
	}
	return s
}

// Sorted gives the ingredients in descending weight, as food law orders them
// (Regulation (EU) 1169/2011 article 18; 21 CFR 101.4: both from memory). Equal
// weights keep the order given. Names that differ in letter case only are one
// ingredient with the weights added; nameless ones are left out.
func Sorted(in []Ingredient) []Ingredient {
	var out []Ingredient
	at := map[string]int{}
	for _, i := range in {
		i.Name = plain(i.Name)
		if i.Name == "" {
			continue
		}
		if !(i.Weight > 0) || math.IsInf(float64(i.Weight), 0) {
			i.Weight = 0
		}
		k := strings.ToLower(i.Name)
		if j, ok := at[k]; ok {
			out[j].Weight += i.Weight
			continue
		}
		at[k] = len(out)
		out = append(out, i)
	}
	slices.SortStableFunc(out, func(a, b Ingredient) int {
		switch {
		case a.Weight > b.Weight:
			return -1
		case a.Weight < b.Weight:
			return 1
		}
		return 0
	})
	return out
}

// NetWeight writes a weight in grams and in pounds and ounces, both rounded down:
// a pack never claims more than it holds.
func NetWeight(g curemath.Grams) string {
	grams := math.Floor(float64(g) + 1e-9)
	tenths := math.Floor(float64(g/curemath.Ounce)*10 + 1e-9)
	pounds := math.Floor(tenths / 160)
	ounces := fmt.Sprintf("%.1f oz", (tenths-pounds*160)/10)
	if pounds > 0 {
		ounces = fmt.Sprintf("%.0f lb %s", pounds, ounces)
	}
	return fmt.Sprintf("%.0f g (%s)", grams, ounces)
}

// plain is a text on one line without control characters.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7F {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return strings.Join(strings.Fields(s), " ")
}
