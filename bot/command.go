package bot

import (
	"context"
	"strings"

	"larderhand/bot/reply"
)

// Command is one thing the bot can be asked for. Help is printed from it, and the
// platforms' menus are made from it.
type Command struct {
	Name    string   // the word to type
	Also    []string // other words that mean the same
	Group   string   // the heading it stands under in help: what a person wants to do
	Form    string   // how it is typed
	Help    string   // what it does, in a few words
	Example string   // one line that works
	Sums    bool     // needs nothing stored: works while the store does not
	Reads   bool     // changes nothing
	Batch   bool     // its first argument is a batch number
	Files   bool     // a file or picture sent along is of use to it
	Own     bool     // a person's own words may follow: no worry is looked for in them
	Fields  []Field  // what a form asks for; none: the line is enough
	// Ahead looks up what only the platform knows, before a transaction is open.
	Ahead func(ctx context.Context, b *Bot, m Message, args string) (Message, error)
	Run   func(*Turn, string) (reply.Reply, error)
}

// Field is one question of a form; the answers, in order, make the rest of the
// line.
type Field struct {
	Name     string // short label
	Example  string
	Prefix   string // what stands before the answer in the line
	Optional bool
	Long     bool        // may take several lines, so it is better asked in a form
	Choices  []string    // the only answers there are
	Suggest  Suggestable // what to offer while it is being typed
}

// commands is the table of all commands; each capability's file adds its rows.
func commands() []Command {
	var all []Command
	for _, rows := range [][]Command{
		cureCommands(),
		wetCommands(),
		checkCommands(),
		openCommands(),
		flipCommands(),
		rubCommands(),
		stepCommands(),
		weighCommands(),
		labelCommands(),
		smokeSetCommands(),
		readingCommands(),
		batchCommands(),
		chartCommands(),
		tasteCommands(),
		compareCommands(),
		cardCommands(),
		recipeCommands(),
		stockCommands(),
		shareCommands(),
		handCommands(),
		moderateCommands(),
		noteCommands(),
		pingsCommands(),
		settingCommands(),
		placeCommands(),
		cautionCommands(),
		welcomeCommands(),
		helpCommands(),
	} {
		all = append(all, rows...)
	}
	return all
}

// find gives the command a line starts with and the rest of the line.
func (b *Bot) find(text string) (Command, string, bool) {
	word, rest := firstWord(text)
	ends := ":.!"
	if rest != "" && !strings.ContainsAny(rest[:1], "0123456789") { // "done, 151" is no command and its batch
		ends += ",;"
	}
	word = strings.ToLower(strings.TrimRight(strings.TrimPrefix(word, "/"), ends))
	c, ok := b.byWord[word]
	return c, rest, ok
}

func firstWord(s string) (word, rest string) {
	s = strings.TrimSpace(s)
	i := strings.IndexAny(s, " \t\n")
	if i < 0 {
		return s, ""
	}
	return s[:i], strings.TrimSpace(s[i:])
}
