package bot

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"larderhand/bot/course"
	"larderhand/bot/exchange"
	"larderhand/bot/reply"
	"larderhand/store"
)

func recipeCommands() []Command {
	named := Field{Name: "Recipe", Example: `"winter juniper"`}
	return []Command{
		{Name: "save", Own: true, Group: groupRecipe, Form: `save 3 as "winter juniper"`, Help: "keep a batch's cure as a recipe, by percent of the meat", Example: `save 1 as "winter juniper"`, Batch: true,
			Fields: []Field{{Name: "Name", Prefix: "as", Example: "winter juniper"}}, Run: (*Turn).saveRecipe},
		{Name: "recipes", Also: []string{"cookbook"}, Own: true, Group: groupRecipe, Form: `recipes / recipes "winter juniper"`, Help: "your recipes and those shared here; one with its versions", Example: "recipes", Reads: true,
			Fields: []Field{{Name: "Recipe", Example: `"winter juniper"`, Optional: true}}, Run: (*Turn).recipes},
		{Name: "use", Own: true, Group: groupRecipe, Form: `use "winter juniper" 6.2 lb 1.5 in`, Help: "work out a cure by a recipe", Example: `use "winter juniper" 6.2 lb`,
			Fields: []Field{named, {Name: "Weight", Example: "6.2 lb"}, {Name: "Thickness", Example: "1.5 in", Optional: true}}, Run: (*Turn).use},
		{Name: "again", Own: true, Group: groupRecipe, Form: "again 3b 7 lb", Help: "work out a cure like that of a batch, for another weight", Example: "again 1 7 lb", Batch: true,
			Fields: []Field{{Name: "Weight", Example: "7 lb"}}, Run: (*Turn).sameAgain},
		{Name: "take", Own: true, Group: groupRecipe, Form: `take "winter juniper"`, Help: "take over a recipe shared here, with credit", Example: `take "winter juniper"`, Fields: []Field{named}, Run: (*Turn).takeRecipe},
		{Name: "export", Own: true, Group: groupRecipe, Form: `export "winter juniper"`, Help: "a recipe as a file, for another chat or another tool", Example: `export "winter juniper"`, Reads: true, Fields: []Field{named}, Run: (*Turn).export},
		{Name: "import", Own: true, Group: groupRecipe, Form: "import", Help: "read a recipe from a file you attach", Example: "import", Files: true, Run: (*Turn).importRecipe},
	}
}

// asRecipe finds the name in `save 3 as "winter juniper"`.
var asRecipe = regexp.MustCompile(`(?i)(?:^|\s)as\s+(?:as\s+)?(.+)$`)

// longestName is how long a recipe's name may be: it has to fit into a button.
const longestName = 40

// saveRecipe keeps a batch, running or done, as the next version of a recipe.
func (t *Turn) saveRecipe(args string) (reply.Reply, error) {
	var r reply.Reply
	m := asRecipe.FindStringSubmatchIndex(args)
	if m == nil {
		return r, &Error{Kind: BadInput, Why: "Under which name?", Example: `save 1 as "winter juniper"`}
	}
	p, err := t.which("save", strings.TrimSpace(args[:m[0]]), nil)
	if err != nil {
		return r, err
	}
	s := p.State
	called := unquote(args[m[2]:m[3]])
	if called == "" || len([]rune(called)) > longestName || strings.ContainsAny(called, "0123456789") {
		return r, &Error{Kind: BadInput, Why: fmt.Sprintf("A name is up to %d letters, without digits: digits are weights.", longestName), Example: fmt.Sprintf(`save %d as "winter juniper"`, s.Number)}
	}
	if p.Letter == "" && len(s.Pieces) > 1 {
		e := &Error{Kind: BadInput, Why: "Which piece? They are flavoured apart.", Example: fmt.Sprintf(`save %d%s as "%s"`, s.Number, s.Pieces[0].Letter, called)}
		for _, piece := range s.Pieces[:min(len(s.Pieces), 5)] {
			e.Buttons = append(e.Buttons, reply.Button{Label: piece.Letter + " " + orElse(piece.Flavouring, "plain"), Line: fmt.Sprintf(`save %d%s as %s`, s.Number, piece.Letter, called)})
		}
		return r, e
	}
	letter := orElse(p.Letter, s.Pieces[0].Letter)
	rec, err := t.recipeOf(s, letter)
	if err != nil {
		return r, err
	}
	rec.Name = called
	if s.Keeper != t.Me.ID {
		keeper, err := t.Tx.MemberByID(s.Keeper)
		if err != nil {
			return r, err
		}
		rec.Credit = credit([]string{keeper.Name}, t.Me.Name)
	}
	kept, err := t.keepRecipe(rec)
	if err != nil {
		return r, err
	}
	r.Say("Kept ", reply.B(t.pieceName(s, letter)), " as ", reply.B(title(kept)), ":")
	t.sayRecipe(&r, rec)
	r.Say("Next time: ", reply.Type(fmt.Sprintf(`use "%s" %s`, kept.Name, t.exampleWeight())), ". To let others take it: ", reply.Type(fmt.Sprintf(`share "%s"`, kept.Name)))
	return r, nil
}

// keepRecipe keeps a recipe as the sender's own: as the next version of its name, or
// as the one it is word for word.
func (t *Turn) keepRecipe(rec exchange.Recipe) (store.Recipe, error) {
	rec.Version = 0 // counted where it is kept
	body, err := json.Marshal(rec)
	if err != nil {
		return store.Recipe{}, err
	}
	own, err := t.Tx.Recipes(t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return store.Recipe{}, err
	}
	for i, r := range own {
		newest := i == len(own)-1 || own[i+1].Fold != r.Fold
		if r.Fold == fold(rec.Name) && newest && r.Body == string(body) {
			return r, nil
		}
	}
	return t.Tx.SaveRecipe(store.Recipe{Lane: t.Conv.Address.Lane(), Owner: t.Me.Key, OwnerName: t.Me.Name, Name: rec.Name, Fold: fold(rec.Name), Body: string(body)})
}

func readRecipe(kept store.Recipe) (exchange.Recipe, error) {
	var rec exchange.Recipe
	if err := json.Unmarshal([]byte(kept.Body), &rec); err != nil {
		return rec, fmt.Errorf("recipe %d: %w", kept.ID, err)
	}
	rec.Version = kept.Version
	return rec, nil
}

func fold(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

func title(r store.Recipe) string { return fmt.Sprintf("%s v%d", r.Name, r.Version) }

// credit adds a name to those a recipe came from, unless it is there.
func credit(list []string, who string) []string {
	if who == "" || slices.Contains(list, who) {
		return list
	}
	return append(slices.Clone(list), who)
}

// unquote takes the quotes off a name, straight or curly.
func unquote(s string) string {
	return clip(strings.Trim(strings.TrimSpace(s), "\"'“”„«»‘’`"), 200)
}

var quoted = regexp.MustCompile("^\\s*[\"“„«]([^\"“”„«»]*)[\"”“»]\\s*(.*)$")

var versionSaid = regexp.MustCompile(`(?i)^v(?:ersion)?\s*(\d{1,6})\b\s*(.*)$`)

// findRecipe finds the recipe a line begins with, the sender's own before those
// shared here, and what comes after it. The name may stand in quotes or not.
func (t *Turn) findRecipe(cmd, args string) (kept store.Recipe, rest string, err error) {
	own, err := t.Tx.Recipes(t.Conv.Address.Lane(), t.Me.Key)
	if err != nil {
		return kept, "", err
	}
	shared, err := t.Tx.RecipesIn(t.Conv.ID, t.Conv.Address.Lane())
	if err != nil {
		return kept, "", err
	}
	all := append(own, shared...)
	called, rest := nameIn(args, all)
	want := 0
	if m := versionSaid.FindStringSubmatch(rest); m != nil && called != "" {
		rest = m[2]
		_, _ = fmt.Sscan(m[1], &want)
	}
	found := false
	for _, r := range all {
		if r.Fold != called || found && r.Owner != kept.Owner {
			continue
		}
		if want == 0 || r.Version == want {
			kept, found = r, true
		}
	}
	if found {
		return kept, rest, nil
	}
	return kept, "", t.noRecipe(cmd, unquote(args), called != "" && want > 0, all)
}

// nameIn parts a recipe's name from what follows it: what is in quotes, or the
// longest name known that the text begins with.
func nameIn(args string, known []store.Recipe) (name, rest string) {
	if m := quoted.FindStringSubmatch(args); m != nil {
		return fold(m[1]), m[2]
	}
	words := strings.Fields(args)
	for n := len(words); n > 0; n-- {
		said := fold(strings.Join(words[:n], " "))
		if slices.ContainsFunc(known, func(r store.Recipe) bool { return r.Fold == said }) {
			return said, strings.Join(words[n:], " ")
		}
	}
	return "", args
}

func (t *Turn) noRecipe(cmd, said string, otherVersion bool, all []store.Recipe) error {
	e := &Error{Kind: NoSuch, Why: fmt.Sprintf("There is no recipe “%s” of yours, and none shared here.", clip(said, 40)), Example: `save 1 as "winter juniper"`}
	if said == "" {
		e.Why = "Which recipe?"
	}
	if otherVersion {
		e.Why = "That recipe has no such version."
	}
	var names []string
	for _, r := range all {
		if !slices.Contains(names, r.Name) {
			names = append(names, r.Name)
		}
	}
	if len(names) == 0 {
		e.Why += " Keep a batch you liked as one."
		return e
	}
	e.Why += " There are: " + strings.Join(names[:min(len(names), 8)], ", ") + "."
	e.Example = fmt.Sprintf(`%s "%s"`, cmd, names[0])
	return e
}

// smokeHours is how long a piece was in the smoke; 0 if it was not, or is still.
func smokeHours(s course.State, letter string) float64 {
	p, ok := s.Find(letter)
	if !ok {
		return 0
	}
	in, on := p.Marks[course.Smoking]
	out, off := p.Marks[course.Smoked]
	if !on || !off || in.Skipped || out.Skipped || out.At.Before(in.At) {
		return 0
	}
	return out.At.Sub(in.At).Hours()
}
