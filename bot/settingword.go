package bot

import (
	"slices"
	"strings"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
)

// settingFirst reads a setting said without "set": "units metric", "zone
// Europe/Berlin", or a unit alone. A setting's name without a value tells how it
// stands.
func (t *Turn) settingFirst(line string) (reply.Reply, error, bool) {
	word, rest := firstWord(strings.ToLower(line))
	word = strings.Trim(word, "/.,!?:")
	if t.Tx == nil {
		return reply.Reply{}, nil, false
	}
	if units := unitWord(word); units != "" && (rest == "" || slices.Contains([]string{"please", "units"}, rest)) {
		r, err := t.set("units " + units)
		return r, err, true
	}
	if word == "unit" {
		word = "units"
	}
	if !slices.ContainsFunc(settings(), func(s setting) bool { return s.name == word }) || len(strings.Fields(rest)) > 4 {
		return reply.Reply{}, nil, false
	}
	_, value := firstWord(line)
	if at, err := parse.Temperature(value, t.tempUnit()); word == "fridge" && err != nil {
		return reply.Reply{}, nil, false // more likely told as a worry
	} else if word == "fridge" && at > warmestFridge {
		if r, ok := t.fridgeTold(line); ok {
			return r, nil, true
		}
	}
	if _, known := t.bot.Rules.ByID(value); word == rulesSetting && value != "" && !known { // "rules of the club"
		return reply.Reply{}, t.unknownRules(value), true
	}
	r, err := t.set(strings.TrimSpace(word + " " + value))
	return r, err, true
}

// unitWord is the system a unit belongs to when it is said alone, or "".
func unitWord(word string) string {
	switch word {
	case "metric", "celsius", "centigrade", "grams", "kilos", "kilograms", "°c":
		return "metric"
	case "imperial", "fahrenheit", "pounds", "ounces", "inches", "°f":
		return "us"
	}
	return ""
}
