// Package exchange is the file a recipe travels in: plain JSON, each number with its
// unit in its name, described by recipe.schema.json. It reads and writes the file;
// whether a recipe is safe is for whoever takes it to work out.
package exchange

import (
	"encoding/json"

	"larderhand/curemath"
)

// Format and FormatVersion mark a file as ours. A later version that means
// something else by a name gets another number, and both are read.
const (
	Format        = "larderhand recipe"
	FormatVersion = 1
)

// MostBytes is how long a file may be; ours have under two thousand.
const MostBytes = 64 << 10

// Recipe is a way of curing by the weight of the green meat.
type Recipe struct {
	Format        string   `json:"format"`
	FormatVersion int      `json:"format_version"`
	Name          string   `json:"name"`
	Version       int      `json:"version,omitempty"`
	Credit        []string `json:"credit,omitempty"` // who made it first, and through whose hands it came

	Method     string           `json:"method"` // curemath.Method's words
	Nitrite    curemath.PPM     `json:"sodium_nitrite_mg_per_kg_meat"`
	Salt       curemath.Percent `json:"salt_percent_of_meat"`
	Sugar      curemath.Percent `json:"sugar_percent_of_meat"`
	Ascorbate  curemath.PPM     `json:"sodium_ascorbate_mg_per_kg_meat,omitempty"`
	Mix        curemath.Percent `json:"curing_mix_sodium_nitrite_percent"`
	MixNitrate curemath.Percent `json:"curing_mix_nitrate_percent,omitempty"`

	Water  curemath.Percent `json:"water_percent_of_meat,omitempty"`
	Pickup curemath.Percent `json:"pickup_percent_of_meat,omitempty"`
	Pump   curemath.Percent `json:"pump_percent_of_meat,omitempty"`
	Cover  curemath.Percent `json:"cover_brine_percent_of_meat,omitempty"`
	Rubs   int              `json:"rubs,omitempty"`
	Gap    int              `json:"days_between_rubs,omitempty"`

	RindOn     bool                 `json:"rind_on,omitempty"`
	Flavouring string               `json:"flavouring,omitempty"`
	Seasoning  string               `json:"seasoning,omitempty"`
	Thickness  curemath.Millimetres `json:"thickness_mm,omitempty"`
	Days       int                  `json:"days_in_cure,omitempty"`
	SmokeHours float64              `json:"smoke_hours,omitempty"`
	Core       *curemath.Celsius    `json:"core_celsius,omitempty"`
	Example    *Example             `json:"for_1000_g_meat,omitempty"`
}

// Example is what a kilogram of meat takes.
type Example struct {
	Mix   curemath.Grams `json:"curing_mix_g,omitempty"`
	Salt  curemath.Grams `json:"salt_g,omitempty"`
	Sugar curemath.Grams `json:"sugar_g,omitempty"`
}

// Write gives the file of a recipe.
func Write(r Recipe) ([]byte, error) {
	r.Format, r.FormatVersion = Format, FormatVersion
	out, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(out, '\n'), nil
}
