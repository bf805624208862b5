package curemath

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"time"
)

//go:embed data/rules.json
var rulesFile []byte

type rulesJSON struct {
	Note  string
	Floor floorJSON
	Rind  struct {
		Factor float64
		Source Source
	}
	RuleSets []ruleSetJSON `json:"rule_sets"`
}

type floorJSON struct {
	Min    PPM
	Source Source
}

type ruleSetJSON struct {
	ID          string
	Name        string
	Remark      string
	Aliases     []string
	PolicyFloor floorJSON `json:"policy_floor"`
	Limits      []limitJSON
}

type limitJSON struct {
	Product      string
	Methods      []Method
	Max          PPM
	Min          PPM
	MaxPotassium PPM    `json:"max_potassium"`
	StatedAs     string `json:"stated_as"`
	Residual     bool
	Ascorbate    PPM
	From, Until  string
	What         string
	SetAside     string `json:"set_aside"`
	Source       Source
}

// LoadRules reads the embedded rule sets; each row names its source. An error is a
// mistake in the file the program was built with, so it belongs at the start of the
// program.
func LoadRules() (Rules, error) { return readRules(rulesFile) }

func readRules(file []byte) (Rules, error) {
	var f rulesJSON
	if err := strictJSON(file, &f); err != nil {
		return Rules{}, fmt.Errorf("rule sets: %w", err)
	}
	if f.Rind.Factor <= 0 || f.Rind.Factor > 1 || !f.Rind.Source.whole() {
		return Rules{}, fmt.Errorf("rule sets: rind factor %v", f.Rind.Factor)
	}
	if f.Floor.Min <= 0 || !f.Floor.Source.whole() {
		return Rules{}, fmt.Errorf("rule sets: floor %v", f.Floor.Min)
	}
	var r Rules
	strictest := RuleSet{ID: StrictestRules, Name: "strictest of all", rind: f.Rind.Factor, rindSource: f.Rind.Source}
	for _, s := range f.RuleSets {
		set := RuleSet{
			ID: s.ID, Name: s.Name, Remark: s.Remark, Aliases: s.Aliases,
			PolicyFloor: s.PolicyFloor.Min, PolicyFloorSource: s.PolicyFloor.Source,
			rind: f.Rind.Factor, rindSource: f.Rind.Source,
		}
		if s.PolicyFloor.Min != 0 && !s.PolicyFloor.Source.whole() {
			return Rules{}, fmt.Errorf("rule set %s: policy floor without a source", s.ID)
		}
		for i, row := range s.Limits {
			l, err := row.limit(f.Floor)
			if err != nil {
				return Rules{}, fmt.Errorf("rule set %s, row %d: %w", s.ID, i+1, err)
			}
			set.limits = append(set.limits, l)
		}
		for _, m := range Methods() {
			if l := set.BaconLimit(m, false); l.Max <= l.Min {
				return Rules{}, fmt.Errorf("rule set %s: nothing lawful for bacon by %s", s.ID, m)
			}
		}
		r.sets = append(r.sets, set)
		strictest.limits = append(strictest.limits, set.limits...)
	}
	r.strictest = strictest
	if _, ok := r.ByID(DefaultRules); !ok {
		return Rules{}, fmt.Errorf("rule sets: no %q", DefaultRules)
	}
	return r, nil
}

func (row limitJSON) limit(floor floorJSON) (Limit, error) {
	l := Limit{
		Published: row.Max, Potassium: row.MaxPotassium, Residual: row.Residual, Ascorbate: row.Ascorbate,
		What: row.What, Source: row.Source, Product: row.Product, Methods: row.Methods,
		From: row.From, Until: row.Until, SetAside: row.SetAside,
	}
	switch row.StatedAs {
	case "sodium nitrite":
		l.Max = row.Max
	case "nitrite ion":
		// A hundredth down, so that what is aimed at converts back to no more
		// than the figure in the document.
		l.AsIon = true
		l.Max = PPM(math.Floor(float64(FromNitriteIon(row.Max))*100) / 100)
	default:
		return Limit{}, fmt.Errorf("stated as %q", row.StatedAs)
	}
	l.Min, l.MinSource = floor.Min, floor.Source
	if row.Min > 0 {
		l.Min, l.MinSource = row.Min, row.Source
	}
	switch {
	case l.Max <= 0 || l.What == "" || l.Product == "":
		return Limit{}, fmt.Errorf("%q is not a limit", l.What)
	case !l.Source.whole():
		return Limit{}, fmt.Errorf("%q has no document, section, date and status", l.What)
	}
	for _, d := range [...]string{row.From, row.Until} {
		if d == "" {
			continue
		}
		if _, err := time.Parse(time.DateOnly, d); err != nil {
			return Limit{}, err
		}
	}
	return l, nil
}

// strictJSON refuses a key the program does not know, so that a misspelt one in
// a data file is found at once.
func strictJSON(file []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(file))
	d.DisallowUnknownFields()
	return d.Decode(into)
}
