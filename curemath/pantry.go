package curemath

import (
	_ "embed"
	"fmt"
)

//go:embed data/ingredients.json
var ingredientsFile []byte

// Pantry is everything a recipe line can be read as: the ingredient table and
// the curing mixes, from the embedded files.
type Pantry struct {
	mixes  Mixes
	rows   []Ingredient
	byName map[string]int
	// longest is the most words a known name has.
	longest int
}

type ingredientJSON struct {
	ID, Name string
	Kind     IngredientKind
	Aliases  []string
	Tsp      triple
	Cup      triple
	Each     triple
	Liquid   bool
	MakeUp   struct{ Salt, Sugar, Water, Alcohol, Acid, Ascorbate triple } `json:"make_up"`
	Remark   string

	WeightSource Source `json:"weight_source"`
	MakeUpSource Source `json:"make_up_source"`
}

// LoadPantry reads the embedded tables; each row names its source. An error is a
// mistake in a file the program was built with.
func LoadPantry() (Pantry, error) {
	mixes, err := LoadMixes()
	if err != nil {
		return Pantry{}, err
	}
	return readPantry(ingredientsFile, mixes)
}

func readPantry(file []byte, mixes Mixes) (Pantry, error) {
	var f struct {
		Note, Compiled string
		// Undated is the date of a source that has none of its own.
		Undated     string
		Ingredients []ingredientJSON
	}
	if err := strictJSON(file, &f); err != nil {
		return Pantry{}, fmt.Errorf("ingredients: %w", err)
	}
	if f.Undated == "" {
		return Pantry{}, fmt.Errorf("ingredients: nothing said of sources without a date")
	}
	p := Pantry{mixes: mixes, byName: make(map[string]int)}
	for i, j := range f.Ingredients {
		for _, src := range [...]*Source{&j.WeightSource, &j.MakeUpSource} {
			if src.Date == "" {
				src.Date = f.Undated
			}
		}
		row, err := j.row()
		if err != nil {
			return Pantry{}, fmt.Errorf("ingredient %d (%s): %w", i+1, j.ID, err)
		}
		for _, name := range append(j.Aliases, j.Name) {
			key := ingredientKey(name)
			if at, twice := p.byName[key]; twice && at != i {
				return Pantry{}, fmt.Errorf("ingredient %s: name %q is also %s", j.ID, name, p.rows[at].ID)
			}
			if _, cure := mixes.byName[key]; cure {
				return Pantry{}, fmt.Errorf("ingredient %s: name %q is also a curing mix", j.ID, name)
			}
			p.byName[key] = i
		}
		p.rows = append(p.rows, row)
	}
	for key := range p.byName {
		p.longest = max(p.longest, countWords(key))
	}
	for key := range mixes.byName {
		p.longest = max(p.longest, countWords(key))
	}
	return p, nil
}

func countWords(key string) int {
	n := 1
	for _, r := range key {
		if r == ' ' {
			n++
		}
	}
	return n
}

func (j ingredientJSON) row() (Ingredient, error) {
	r := Ingredient{
		ID: j.ID, Name: j.Name, Kind: j.Kind, Aliases: j.Aliases, Liquid: j.Liquid, Remark: j.Remark,
		WeightSource: j.WeightSource, MakeUpSource: j.MakeUpSource,
		measure: measure{tsp: band[Grams](j.Tsp), cup: band[Grams](j.Cup), each: band[Grams](j.Each), source: j.WeightSource},
		makeUp: makeUp{
			salt: band[Percent](j.MakeUp.Salt), sugar: band[Percent](j.MakeUp.Sugar), water: band[Percent](j.MakeUp.Water),
			alcohol: band[Percent](j.MakeUp.Alcohol), acid: band[Percent](j.MakeUp.Acid), ascorbate: band[Percent](j.MakeUp.Ascorbate),
		},
	}
	switch {
	case j.ID == "" || j.Name == "" || j.Kind == "":
		return r, fmt.Errorf("no id, name or kind")
	case !j.WeightSource.honest() || !j.MakeUpSource.honest():
		return r, fmt.Errorf("no source, or a document for what is from memory")
	case r.measure.tsp.High == 0 && r.measure.cup.High == 0 && r.measure.each.High == 0:
		return r, fmt.Errorf("no measure")
	}
	for _, t := range [...]triple{j.Tsp, j.Cup, j.Each, j.MakeUp.Salt, j.MakeUp.Sugar, j.MakeUp.Water, j.MakeUp.Alcohol, j.MakeUp.Acid, j.MakeUp.Ascorbate} {
		if len(t) > 0 && !t.ok() {
			return r, fmt.Errorf("%v is not low, typical, high", t)
		}
	}
	m := r.makeUp
	if all := m.salt.Typical + m.sugar.Typical + m.water.Typical + m.alcohol.Typical + m.acid.Typical + m.ascorbate.Typical; all > 100+1e-9 {
		return r, fmt.Errorf("is made up of %v %%", all)
	}
	return r, nil
}

// Ingredients lists the table.
func (p Pantry) Ingredients() []Ingredient { return append([]Ingredient(nil), p.rows...) }

// Mixes gives the curing mixes; each names its source.
func (p Pantry) Mixes() Mixes { return p.mixes }
