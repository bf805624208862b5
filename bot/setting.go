package bot

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"larderhand/bot/parse"
	"larderhand/bot/reply"
	"larderhand/curemath"
	"larderhand/scheduler/plan"
	"larderhand/store"
)

func settingCommands() []Command {
	return []Command{{Name: "set", Also: []string{"settings"}, Own: true, Group: groupSet, Form: "set / set zone Europe/Berlin", Help: "zone, ping hour, quiet hours, units, rules, usual salt, sugar, nitrite, mix",
		Example: "set hour 07:30", Fields: settingFields(), Run: (*Turn).set}}
}

// defaults are the settings a new conversation starts with.
func defaults(zone *time.Location) store.Settings {
	return store.Settings{Zone: zone.String(), PingHour: 8 * 60, QuietFrom: 22 * 60, QuietTo: 7 * 60, Rules: "us",
		Salt: curemath.DefaultSalt, Nitrite: curemath.DefaultNitrite, Mix: curemath.StandardMix().Nitrite}
}

// setting is one thing a conversation can choose.
type setting struct {
	name    string
	example string
	show    func(*Turn, store.Settings) string
	take    func(*Turn, *store.Settings, string) error
}

func settings() []setting {
	return []setting{
		{"zone", "set zone Europe/Berlin", func(t *Turn, s store.Settings) string { return s.Zone + " (now " + t.Now.Format("Mon 15:04") + ")" }, takeZone},
		{"hour", "set hour 07:30", func(_ *Turn, s store.Settings) string { return plan.HourMinute(s.PingHour).String() }, takeHour},
		{"quiet", "set quiet 22:00-07:00", showQuiet, takeQuiet},
		{awaySetting, "set away until Sunday 18:00", showAway, takeAway},
		{"fridge", "set fridge 36 °F", showFridge, takeFridge},
		{"units", "set units metric", func(_ *Turn, s store.Settings) string { return orElse(s.Units, "us") }, takeUnits},
		{"pictures", "set pictures dark", func(_ *Turn, s store.Settings) string { return orElse(s.Named[picturesSetting], "light") }, takePictures},
		{rulesSetting, "set rules us", showRules, takeRules},
		{"salt", "set salt 2.25%", func(_ *Turn, s store.Settings) string { return percent(s.Salt) }, takeSalt},
		{"sugar", "set sugar 1%", func(_ *Turn, s store.Settings) string { return percent(sugarOf(s)) }, takeSugar},
		{"nitrite", "set nitrite 120 ppm", func(_ *Turn, s store.Settings) string { return ppm(s.Nitrite) }, takeNitrite},
		{"mix", "set mix 6.25%", func(_ *Turn, s store.Settings) string { return percent(s.Mix) + " sodium nitrite" }, takeMix},
	}
}

func sugarOf(s store.Settings) curemath.Percent {
	if s.Sugar != nil {
		return *s.Sugar
	}
	return curemath.DefaultSugar
}

// set shows the settings, or takes one up and plans every batch anew by it.
func (t *Turn) set(args string) (reply.Reply, error) {
	var r reply.Reply
	word, rest := firstWord(args)
	word = strings.ToLower(word)
	if word == "" {
		rows := [][]string{}
		for _, s := range settings() {
			rows = append(rows, []string{s.name, s.show(t, t.Conv.Settings)})
		}
		r.Say(reply.B("Settings of this conversation"))
		r.Table(rows)
		r.Par("Change one: ", reply.Type("set hour 07:30"), ", ", reply.Type("set zone Europe/Berlin"), ", ", reply.Type("set units metric"))
		r.Private = true
		return r, nil
	}
	for _, s := range settings() {
		if s.name != word {
			continue
		}
		if rest == "" {
			return r, &Error{Kind: BadInput, Why: fmt.Sprintf("%s is %s. Set it to what?", s.name, s.show(t, t.Conv.Settings)), Example: s.example}
		}
		if err := t.maySet(); err != nil {
			return r, err
		}
		if err := s.take(t, &t.Conv.Settings, rest); err != nil {
			return r, err
		}
		if err := t.resettle(); err != nil {
			return r, err
		}
		r.Say("Set: ", s.name, " is ", s.show(t, t.Conv.Settings), ".")
		if rules, known := t.bot.Rules.ByID(rest); s.name == rulesSetting && !known {
			r.Say(rules.Remark, " I have: ", t.ruleSets(), ".")
		}
		if quiet := (plan.Quiet{From: plan.HourMinute(t.Conv.Settings.QuietFrom), To: plan.HourMinute(t.Conv.Settings.QuietTo)}); (s.name == "hour" || s.name == "quiet") && quiet.Holds(plan.HourMinute(t.Conv.Settings.PingHour)) {
			r.Say("The ping hour, ", plan.HourMinute(t.Conv.Settings.PingHour).String(), ", is within the quiet hours, so pings come at ", quiet.To.String(), ".")
		}
		r.Private = true
		if s.name == awaySetting {
			return r, t.sayWhoCouldMeanwhile(&r)
		}
		return r, nil
	}
	var names []string
	for _, s := range settings() {
		names = append(names, s.name)
	}
	return r, &Error{Kind: BadInput, Why: fmt.Sprintf("There is no setting “%s”. There are: %s.", clip(word, 30), strings.Join(names, ", ")), Example: "set hour 07:30"}
}

// resettle keeps the settings and plans all running batches by them.
func (t *Turn) resettle() error {
	conv, err := t.Tx.SaveConversation(t.Conv)
	if err != nil {
		return err
	}
	t.Conv = conv
	t.Loc = t.bot.location(conv.Settings)
	t.Now = t.Now.In(t.Loc)
	list, err := t.Tx.Batches(conv.ID, false)
	if err != nil {
		return err
	}
	for _, b := range list {
		if _, err := replan(t.Tx, conv, t.Loc, b); err != nil {
			return err
		}
	}
	return nil
}

func takeHour(_ *Turn, s *store.Settings, text string) error {
	hm, err := hourOf(text)
	if err != nil {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as an hour of the day.", clip(text, 30)), Example: "set hour 07:30"}
	}
	s.PingHour = int(hm)
	return nil
}

var barehour = regexp.MustCompile(`(?i)^(\d{1,2})(?:[:.](\d{2}))?\s*([ap]m)?$`)

// hourOf reads an hour of the day as people write it: "7", "07:30", "7.30am", "10pm".
func hourOf(text string) (plan.HourMinute, error) {
	m := barehour.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return plan.ParseHourMinute(strings.TrimSpace(text))
	}
	// The pattern lets only digits through, so neither can fail; no minutes are 0.
	hour, _ := strconv.Atoi(m[1])
	minute, _ := strconv.Atoi(m[2])
	switch half := strings.ToLower(m[3]); {
	case half != "" && (hour < 1 || hour > 12):
		return 0, plan.ErrHourMinute
	case half == "am":
		hour %= 12
	case half == "pm":
		hour = hour%12 + 12
	}
	return plan.ParseHourMinute(fmt.Sprintf("%02d:%02d", hour, minute))
}

func showQuiet(_ *Turn, s store.Settings) string {
	if s.QuietFrom == s.QuietTo {
		return "none"
	}
	return plan.HourMinute(s.QuietFrom).String() + " to " + plan.HourMinute(s.QuietTo).String()
}

func takeQuiet(_ *Turn, s *store.Settings, text string) error {
	if strings.EqualFold(text, "none") || strings.EqualFold(text, "off") {
		s.QuietFrom, s.QuietTo = 0, 0
		return nil
	}
	a, b, _ := strings.Cut(strings.NewReplacer("–", "-", " to ", "-").Replace(text), "-")
	from, err1 := hourOf(a)
	to, err2 := hourOf(b)
	if err1 != nil || err2 != nil {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I can't read “%s” as hours to be quiet.", clip(text, 30)), Example: "set quiet 22:00-07:00"}
	}
	s.QuietFrom, s.QuietTo = int(from), int(to)
	return nil
}

func takeUnits(_ *Turn, s *store.Settings, text string) error {
	switch word := strings.ToLower(text); {
	case slices.Contains([]string{"metric", "kg", "g", "c"}, word) || unitWord(word) == "metric":
		s.Units = "metric"
	case slices.Contains([]string{"us", "lb", "oz", "f"}, word) || unitWord(word) == "us":
		s.Units = "us"
	default:
		return &Error{Kind: BadInput, Why: fmt.Sprintf("I know the units us (lb, in, °F) and metric (kg, mm, °C), not “%s”.", clip(text, 30)), Example: "set units metric"}
	}
	return nil
}

func takePictures(_ *Turn, s *store.Settings, text string) error {
	word := strings.ToLower(strings.TrimSpace(text))
	if word != "dark" && word != "light" {
		return &Error{Kind: BadInput, Why: "Pictures come light or dark.", Example: "set pictures dark"}
	}
	if s.Named == nil {
		s.Named = map[string]string{}
	}
	s.Named[picturesSetting] = word
	return nil
}

func showRules(t *Turn, s store.Settings) string {
	r, _ := t.bot.Rules.ByID(s.Rules)
	return r.ID + " (" + r.Name + ")"
}

const rulesSetting = "rules"

// takeRules takes up a country's limits; of one that is not known, the strictest.
func takeRules(t *Turn, s *store.Settings, text string) error {
	rules, known := t.bot.Rules.ByID(text)
	if !known && !aCountry.MatchString(strings.TrimSpace(text)) {
		return t.unknownRules(text)
	}
	s.Rules = rules.ID
	return nil
}

// aCountry matches what may be the name of one.
var aCountry = regexp.MustCompile(`^\p{L}[\p{L}'’.-]*(?: \p{L}[\p{L}'’.-]*){0,3}$`)

func (t *Turn) unknownRules(text string) error {
	return &Error{Kind: BadInput, Why: fmt.Sprintf("I have no rules for “%s”. I have: %s. If yours is not there, take strictest.", clip(text, 30), t.ruleSets()), Example: "set rules strictest"}
}

func (t *Turn) ruleSets() string {
	var ids []string
	for _, r := range t.bot.Rules.All() {
		ids = append(ids, r.ID)
	}
	return strings.Join(ids, ", ")
}

func takeSalt(_ *Turn, s *store.Settings, text string) error {
	p, err := parse.Percent(text)
	if err != nil {
		return err
	}
	if p < 1 || p > curemath.MaxSalt {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("Salt of %s is outside 1 to %s.", percent(p), percent(curemath.MaxSalt)), Example: "set salt 2.25%"}
	}
	s.Salt = p
	return nil
}

func takeSugar(_ *Turn, s *store.Settings, text string) error {
	p, err := parse.Percent(text)
	if err != nil {
		return err
	}
	if p > curemath.MaxSugar {
		return &Error{Kind: BadInput, Why: fmt.Sprintf("Sugar of %s is outside 0 to %s.", percent(p), percent(curemath.MaxSugar)), Example: "set sugar 1%"}
	}
	s.Sugar = &p
	return nil
}

// takeNitrite holds a new usual target to the limits at once, on a made-up kilo.
func takeNitrite(t *Turn, s *store.Settings, text string) error {
	p, err := parse.PPM(text)
	if err != nil {
		return err
	}
	_, err = curemath.SolveDry(curemath.DryTargets{Green: curemath.Kilogram, Nitrite: p, Salt: curemath.DefaultSalt, Mix: curemath.StandardMix(), Rules: t.rules()})
	if err != nil {
		return err
	}
	s.Nitrite = p
	return nil
}

func takeMix(t *Turn, s *store.Settings, text string) error {
	p, err := parse.Percent(text)
	if err != nil {
		named, wrong := parse.Cure("mix "+text, t.Now) // "#1"
		var bad *parse.Problem
		switch {
		case errors.As(wrong, &bad) && bad.Kind == parse.NoCure:
			return wrong
		case wrong != nil || named.Mix == nil:
			return err
		}
		p = *named.Mix
	}
	if _, err := curemath.MixOf(p); err != nil {
		return err
	}
	s.Mix = p
	return nil
}
