package telegram

import (
	"context"
	"regexp"
	"strings"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot"
	"larderhand/bot/reply"
)

// Lines this adapter asks the bot for on its own.
const (
	welcomeLine = "welcome"
	sharedLine  = "shared " // and the code of what was shared
)

// payloadShape is what can be passed in a deep link: up to 64 of these (from
// memory, core.telegram.org/bots/features#deep-linking), and of ours only codes of
// shared things. Anyone can make a link, so nothing else is ever run from one.
var payloadShape = regexp.MustCompile(`^[br]_[A-Za-z0-9_-]{1,62}$`)

func payload(code string) bool { return payloadShape.MatchString(code) }

func deepLink(name, code string) string { return "https://t.me/" + name + "?start=" + code }

// request is a message for the bot, taken apart.
type request struct {
	line    string
	command *bot.Command // the command a line beginning with / names
	bare    bool         // the command alone
}

var (
	commandShape = regexp.MustCompile(`^/([A-Za-z0-9_]+)(?:@([A-Za-z0-9_]+))?(?:\s+|$)`)
	mentionShape = regexp.MustCompile(`(?:^|\s)@([A-Za-z0-9_]{3,})\b[,:]?`)
)

// read works out what a message asks for; ok is false when it is not for us: a
// command for another bot, and in a group whatever is neither a command of ours nor
// an answer to us nor has our name in it.
func (a *Adapter) read(p place, m *tgbotapi.Message) (r request, ok bool) {
	text := m.Text
	if text == "" {
		text = m.Caption
	}
	if c := commandShape.FindStringSubmatch(text); c != nil {
		return a.readCommand(p, c[1], c[2], strings.TrimSpace(text[len(c[0]):]))
	}
	r.line = text
	if !p.group() {
		return r, true
	}
	for _, c := range mentionShape.FindAllStringSubmatchIndex(text, -1) {
		if strings.EqualFold(text[c[2]:c[3]], a.name()) {
			r.line = strings.TrimSpace(text[:c[0]] + " " + text[c[1]:])
			return r, true
		}
	}
	to := m.ReplyToMessage
	return r, to != nil && to.From != nil && key(to.From.ID) == a.id()
}

func (a *Adapter) readCommand(p place, word, at, rest string) (r request, ok bool) {
	if at != "" && !strings.EqualFold(at, a.name()) {
		return r, false
	}
	word = strings.ToLower(word)
	if word == "start" && !strings.Contains(rest, " ") {
		switch {
		case !p.group() && payload(rest) && a.knows(sharedLine):
			return request{line: sharedLine + rest}, true
		case p.group() || rest == "" || payload(rest):
			return request{line: welcomeLine}, true
		}
	}
	r.line = strings.TrimSpace(word + " " + rest)
	r.bare = rest == ""
	if c, known := a.words()[word]; known {
		r.command = &c
		return r, true
	}
	return r, at != "" || !p.group()
}

// knows reports whether the bot has a command for a line.
func (a *Adapter) knows(line string) bool {
	_, ok := a.words()[strings.TrimSpace(line)]
	return ok
}

// words are the bot's commands by every word for them.
func (a *Adapter) words() map[string]bot.Command {
	a.wordsOnce.Do(func() {
		a.byWord = map[string]bot.Command{}
		for _, c := range a.Bot.Commands() {
			for _, w := range append([]string{c.Name}, c.Also...) {
				a.byWord[w] = c
			}
		}
	})
	return a.byWord
}

// style is how replies are written in a place. In a group only commands reach us
// for certain, so what is to be typed there begins with a slash.
func (a *Adapter) style(p place) style {
	st := style{times: !a.plain.Load()}
	if p.group() {
		st.typed = func(line string) string {
			word, _, _ := strings.Cut(line, " ")
			if _, ok := a.words()[word]; ok && commandShape.MatchString("/"+line) {
				return "/" + line
			}
			return line
		}
	}
	return st
}

// person is who someone is in a place.
func (a *Adapter) person(ctx context.Context, p place, u *tgbotapi.User) bot.Person {
	who := bot.Person{Key: key(u.ID), Name: strings.TrimSpace(plain(u.FirstName + " " + u.LastName)), Admin: !p.group()}
	if who.Name == "" {
		who.Name = "Someone"
	}
	if p.group() {
		who.Admin = a.isAdmin(ctx, p, u.ID)
	}
	return who
}

// titleOf is what a group calls itself.
func titleOf(c *tgbotapi.Chat) string {
	if c == nil {
		return ""
	}
	return plain(c.Title)
}

// speaker is who said a message. An administrator who stays anonymous speaks as the
// group, someone who speaks as a channel as that; neither is a person to ping. ok is
// false where nobody is to be answered: other bots, and the posts of a channel
// copied into its group.
func (a *Adapter) speaker(ctx context.Context, p place, m *tgbotapi.Message, n *newerMessage) (who bot.Person, ok bool) {
	switch {
	case n != nil && n.Forward, m.Chat.IsChannel():
		return who, false
	case m.SenderChat != nil:
		name := m.SenderChat.Title
		if m.SenderChat.ID == m.Chat.ID {
			return bot.Person{Key: key(m.SenderChat.ID), Name: plain(name) + " (anonymous admin)", Admin: true}, true
		}
		return bot.Person{Key: key(m.SenderChat.ID), Name: plain(name)}, true
	case m.From == nil || m.From.IsBot:
		return who, false
	}
	return a.person(ctx, p, m.From), true
}

// when is the instant a message was sent, if that was a while ago: what was said
// while we were not there happened then. The zero time is now.
func (a *Adapter) when(date int) time.Time {
	at := time.Unix(int64(date), 0)
	if date == 0 || a.Now().Sub(at) < time.Minute {
		return time.Time{}
	}
	return at
}

// attached fetches the file of a message.
func (a *Adapter) attached(ctx context.Context, m *tgbotapi.Message) ([]reply.File, error) {
	f := reply.File{Caption: m.Caption}
	var id string
	var bytes int
	switch {
	case m.Document != nil:
		id, bytes, f.Name, f.Type = m.Document.FileID, m.Document.FileSize, m.Document.FileName, m.Document.MimeType
	case len(m.Photo) > 0:
		best := m.Photo[len(m.Photo)-1] // sizes come smallest first
		id, bytes, f.Name, f.Type = best.FileID, best.FileSize, "photo.jpg", "image/jpeg"
	default:
		return nil, nil
	}
	if bytes > bot.MostFile {
		return nil, errTooLarge
	}
	var err error
	f.Data, err = a.api.download(ctx, id, bot.MostFile)
	return []reply.File{f}, err
}
