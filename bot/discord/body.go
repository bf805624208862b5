package discord

import (
	"cmp"

	"github.com/bwmarrin/discordgo"

	"larderhand/bot/reply"
)

// Limits of Discord's own documents: resources/message.mdx and
// components/reference.mdx.
const (
	maxContent     = 2000
	maxDescription = 4096
	maxRows        = 5
	maxRowButtons  = 5
	maxLabel       = 80
	maxCustomID    = 100
	maxChoices     = 25
	maxFiles       = 10
)

// Message flags of resources/message.mdx.
const (
	flagEphemeral = 1 << 6
	flagSilent    = 1 << 12
)

// body is a message as it is sent. discordgo's own lacks the nonce.
type body struct {
	Content     string                    `json:"content"`
	Embeds      []*discordgo.MessageEmbed `json:"embeds"`
	Components  []row                     `json:"components"`
	Mentions    allowed                   `json:"allowed_mentions"`
	Flags       int                       `json:"flags,omitempty"`
	Attachments []attachment              `json:"attachments"`
	Nonce       string                    `json:"nonce,omitempty"`
	Enforce     bool                      `json:"enforce_nonce,omitempty"`

	files []reply.File
}

// allowed says who may be pinged: nobody but the users named.
type allowed struct {
	Parse []string `json:"parse"`
	Users []string `json:"users,omitempty"`
}

type attachment struct {
	ID          int    `json:"id"`
	Filename    string `json:"filename"`
	Description string `json:"description,omitempty"`
}

// component is a button or the input of a form; row holds some.
type component struct {
	Type        int    `json:"type"`
	Style       int    `json:"style,omitempty"`
	Label       string `json:"label,omitempty"`
	CustomID    string `json:"custom_id,omitempty"`
	Placeholder string `json:"placeholder,omitempty"`
	Required    *bool  `json:"required,omitempty"`
	MaxLength   int    `json:"max_length,omitempty"`
}

type row struct {
	Type       int         `json:"type"`
	Components []component `json:"components"`
}

// Component types and button styles of components/reference.mdx.
const (
	typeRow     = 1
	typeButton  = 2
	typeInput   = 4
	stylePrime  = 1
	stylePlain  = 2
	styleShort  = 1
	styleParent = 2 // a paragraph
)

func newBody(mentions []string) body {
	b := body{Embeds: []*discordgo.MessageEmbed{}, Components: []row{}, Mentions: allowed{Parse: []string{}}, Attachments: []attachment{}}
	seen := map[string]bool{}
	for _, m := range mentions {
		if snowflake.MatchString(m) && !seen[m] && len(b.Mentions.Users) < 100 {
			seen[m] = true
			b.Mentions.Users = append(b.Mentions.Users, m)
		}
	}
	return b
}

// attach adds files and names them.
func (b *body) attach(files []reply.File) {
	for _, f := range files {
		if len(b.files) == maxFiles {
			return
		}
		b.Attachments = append(b.Attachments, attachment{ID: len(b.files), Filename: f.Name, Description: clip(cmp.Or(f.Alt, f.Caption), 1000)})
		b.files = append(b.files, f)
	}
}

func (b body) empty() bool { return b.Content == "" && len(b.Embeds) == 0 && len(b.files) == 0 }

func clip(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}
