package discord

import (
	"slices"
	"strings"
	"unicode"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot"
)

// maxText is how long an option's value may be: as much as anyone types on a line.
const maxText = 1000

// definitions makes the slash commands of the bot's own table. A guild's commands
// may not say where else they work.
func definitions(table []bot.Command, words locales, guild bool) []*discordgo.ApplicationCommand {
	var out []*discordgo.ApplicationCommand
	for _, c := range table {
		name := optionName(c.Name)
		if name == "" {
			continue
		}
		d := &discordgo.ApplicationCommand{Type: discordgo.ChatApplicationCommand, Name: name, Description: clip(sentence(c.Help), 100), Options: []*discordgo.ApplicationCommandOption{}}
		d.NameLocalizations, d.DescriptionLocalizations = words.both(name)
		if !guild {
			d.Contexts = &[]discordgo.InteractionContextType{discordgo.InteractionContextGuild, discordgo.InteractionContextBotDM}
			d.IntegrationTypes = &[]discordgo.ApplicationIntegrationType{discordgo.ApplicationIntegrationGuildInstall}
		}
		for _, f := range fields(c) {
			d.Options = append(d.Options, option(name, f, words))
		}
		if c.Files {
			d.Options = append(d.Options, fileOption(name, words))
		}
		// The platform wants what is required first.
		slices.SortStableFunc(d.Options, func(a, b *discordgo.ApplicationCommandOption) int { return rank(a) - rank(b) })
		out = append(out, d)
	}
	return out[:min(len(out), 100)]
}

func rank(o *discordgo.ApplicationCommandOption) int {
	if o.Required {
		return 0
	}
	return 1
}

// option is what a slash command asks. One that is better asked in a form may be left
// out: the form comes then.
func option(command string, f bot.Field, words locales) *discordgo.ApplicationCommandOption {
	name := optionName(f.Name)
	o := &discordgo.ApplicationCommandOption{Type: discordgo.ApplicationCommandOptionString, Name: name, Description: describe(f),
		Required: !f.Optional && !f.Long, MaxLength: maxText}
	names, descriptions := words.both(command + "." + name)
	if names != nil {
		o.NameLocalizations = *names
	}
	if descriptions != nil {
		o.DescriptionLocalizations = *descriptions
	}
	switch {
	case len(f.Choices) > 0 && len(f.Choices) <= maxChoices:
		for _, c := range f.Choices {
			choice := &discordgo.ApplicationCommandOptionChoice{Name: c, Value: c}
			if names, _ := words.both(command + "." + name + "=" + c); names != nil {
				choice.NameLocalizations = *names
			}
			o.Choices = append(o.Choices, choice)
		}
		o.MaxLength = 0 // one of the choices it is
	case f.Suggest != "":
		o.Autocomplete = true
	}
	return o
}

// fileName is the option a file is sent along with.
const fileName = "file"

func fileOption(command string, words locales) *discordgo.ApplicationCommandOption {
	o := &discordgo.ApplicationCommandOption{Type: discordgo.ApplicationCommandOptionAttachment, Name: fileName, Description: "A picture or a file to go with it"}
	names, descriptions := words.both(command + "." + fileName)
	if names != nil {
		o.NameLocalizations = *names
	}
	if descriptions != nil {
		o.DescriptionLocalizations = *descriptions
	}
	return o
}

func describe(f bot.Field) string {
	if f.Example == "" {
		return clip(f.Name, 100)
	}
	return clip(f.Name+", such as "+f.Example, 100)
}

// batchField asks for the batch a command is about.
var batchField = bot.Field{Name: "Batch", Example: "3", Optional: true, Suggest: bot.SuggestBatch}

// fields are all questions a command's line is made of: the batch first where it is
// about one. A command that says nothing of its line has one for whatever comes
// after its word.
func fields(c bot.Command) []bot.Field {
	var list []bot.Field
	if c.Batch {
		list = append(list, batchField)
	}
	if len(c.Fields) > 0 {
		return append(list, c.Fields...)
	}
	if more := detail(c); more != "" {
		list = append(list, bot.Field{Name: "Details", Example: more, Optional: true})
	}
	return list
}

// detail is the longest of what a command's form and example show after the word
// and the batch's number; "" if nothing comes there.
func detail(c bot.Command) string {
	longest := ""
	for _, form := range append(strings.Split(c.Form, " / "), c.Example) {
		w := strings.Fields(form)
		if len(w) == 0 || w[0] != c.Name {
			continue
		}
		w = w[1:]
		if c.Batch && len(w) > 0 {
			w = w[1:]
		}
		if s := strings.Join(w, " "); len(s) > len(longest) {
			longest = s
		}
	}
	return longest
}

// optionName makes a name of the form commands and options have: lower case
// letters, digits, "_" and "-", at most 32.
func optionName(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), r == '-', r == '_':
			return unicode.ToLower(r)
		case r == ' ':
			return '_'
		}
		return -1
	}, s)
	if r := []rune(s); len(r) > 32 {
		return string(r[:32])
	}
	return s
}

func sentence(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
