package discord

import (
	"strings"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
)

// What comes in as options or a form's answers is made into the line it stands
// for, which the bot reads as if it had been typed.

// command finds a command of the table by the name it has as a slash command.
func (a *Adapter) command(name string) (bot.Command, bool) {
	for _, c := range a.Bot.Commands() {
		if optionName(c.Name) == name {
			return c, true
		}
	}
	return bot.Command{}, false
}

// lineOf is the line that a slash command with these options stands for.
func lineOf(c bot.Command, options []*discordgo.ApplicationCommandInteractionDataOption) string {
	said := map[string]string{}
	for _, o := range options {
		if s, ok := o.Value.(string); ok && o.Type == discordgo.ApplicationCommandOptionString {
			said[o.Name] = oneLine(s)
		}
	}
	f := bot.Form{Line: c.Name, Fields: fields(c)}
	var answers []string
	for _, field := range f.Fields {
		answers = append(answers, unprefixed(said[optionName(field.Name)], field.Prefix))
	}
	return f.Fill(answers)
}

// unprefixed takes off an answer the words its field puts in front of it anyway.
func unprefixed(answer, prefix string) string {
	n := len(prefix)
	if n > 0 && len(answer) > n && strings.EqualFold(answer[:n], prefix) && answer[n] == ' ' {
		return answer[n+1:]
	}
	return answer
}

// asks reports whether a command used with nothing but a batch is better asked with
// its form, since what belongs in it takes several lines.
func asks(c bot.Command, options []*discordgo.ApplicationCommandInteractionDataOption) bool {
	for _, o := range options {
		if !c.Batch || o.Name != optionName(batchField.Name) {
			return false
		}
	}
	for _, f := range c.Fields {
		if f.Long {
			return true
		}
	}
	return false
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
