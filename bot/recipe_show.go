package bot

import (
	"fmt"
	"strings"

	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/store"
)

// recipes lists recipes, or shows one with its versions.
func (t *Turn) recipes(args string) (reply.Reply, error) {
	var r reply.Reply
	if strings.TrimSpace(args) != "" {
		return t.oneRecipe(args)
	}
	own, err := t.Tx.Recipes(t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return r, err
	}
	shared, err := t.Tx.RecipesIn(t.Conv.ID, t.Conv.Address.Lane())
	if err != nil {
		return r, err
	}
	newest := map[string]store.Recipe{}
	var order []string
	for _, k := range own {
		if _, ok := newest[k.Fold]; !ok {
			order = append(order, k.Fold)
		}
		newest[k.Fold] = k
	}
	if len(own) == 0 && len(shared) == 0 {
		r.Say("There is no recipe yet. Keep a batch you liked: ", reply.Type(`save 1 as "winter juniper"`))
		return r, nil
	}
	if len(order) > 0 {
		r.Say(reply.B("Yours"))
	}
	for _, f := range order {
		if err := t.recipeLine(&r, newest[f], ""); err != nil {
			return r, err
		}
	}
	first := true
	for _, k := range shared {
		if k.Owner == t.Me.Key {
			continue
		}
		if first {
			r.Par(reply.B("Shared here"))
			first = false
		}
		if err := t.recipeLine(&r, k, ", by "+k.OwnerName); err != nil {
			return r, err
		}
	}
	return r, nil
}

func (t *Turn) recipeLine(r *reply.Reply, k store.Recipe, by string) error {
	rec, err := readRecipe(k)
	if err != nil {
		return err
	}
	r.Say(reply.B(k.Name), fmt.Sprintf(" v%d%s: salt %s, sugar %s, %s nitrite%s", k.Version, by, percent(rec.Salt), percent(rec.Sugar), ppm(rec.Nitrite), t.flavoured(rec.Flavouring)))
	return nil
}

func (t *Turn) oneRecipe(args string) (reply.Reply, error) {
	var r reply.Reply
	kept, _, err := t.findRecipe("recipes", args)
	if err != nil {
		return r, err
	}
	rec, err := readRecipe(kept)
	if err != nil {
		return r, err
	}
	r.Say(reply.B(title(kept)), ":")
	t.sayRecipe(&r, rec)
	own, err := t.Tx.Recipes(kept.Lane, kept.Owner)
	if err != nil {
		return r, err
	}
	for _, o := range own {
		if o.Fold == kept.Fold && o.Version != kept.Version && kept.Owner == t.Me.Key {
			if err := t.recipeLine(&r, o, " of "+o.At.In(t.Loc).Format("2 Jan 2006")); err != nil {
				return r, err
			}
		}
	}
	use := reply.Button{Label: "Use it", Line: fmt.Sprintf(`use "%s"`, kept.Name), Ask: true}
	if kept.Owner != t.Me.Key {
		r.Press(use, reply.Button{Label: "Take it", Line: fmt.Sprintf(`take "%s"`, kept.Name)})
		return r, nil
	}
	r.Press(use, reply.Button{Label: "As a file", Line: fmt.Sprintf(`export "%s"`, kept.Name)})
	return r, nil
}

// sayRecipe writes what a recipe is made of.
func (t *Turn) sayRecipe(r *reply.Reply, rec exchange.Recipe) {
	rows := [][]string{
		{"method", rec.Method},
		{"salt", percent(rec.Salt)},
		{"sugar", percent(rec.Sugar)},
		{"nitrite aimed at", ppm(rec.Nitrite)},
		{"curing mix", percent(rec.Mix) + " nitrite"},
	}
	add := func(ok bool, what, value string) {
		if ok {
			rows = append(rows, []string{what, value})
		}
	}
	add(rec.Ascorbate > 0, "ascorbate", ppm(rec.Ascorbate))
	add(rec.Water > 0, "water", percent(rec.Water))
	add(rec.Pump > 0, "pumped", percent(rec.Pump))
	add(rec.Cover > 0, "cover brine", percent(rec.Cover))
	add(rec.Rubs > 0, "rubs", fmt.Sprint(rec.Rubs))
	add(rec.Thickness > 0, "piece", t.units().thickness(rec.Thickness))
	add(rec.RindOn, "rind", "on")
	add(rec.Days > 0, "days in cure", fmt.Sprint(rec.Days))
	add(rec.Flavouring != "", "flavouring", rec.Flavouring)
	add(rec.Seasoning != "", "seasoning", rec.Seasoning)
	add(rec.SmokeHours > 0, "smoke", trim(rec.SmokeHours, 1)+" h")
	if rec.Core != nil {
		add(true, "core", t.units().temp(rec.Core.Fahrenheit()))
	}
	r.Table(rows)
	if len(rec.Credit) > 0 {
		r.Say("From ", strings.Join(rec.Credit, ", then "), ".")
	}
	t.sayMinds(r, rec)
}

func (t *Turn) exampleWeight() string {
	if t.units() == metric {
		return "2.8 kg"
	}
	return "6.2 lb"
}
