package telegram

import (
	"crypto/sha256"
	"encoding/base32"
	"encoding/json"
	"strings"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
	"github.com/rivo/uniseg"

	"larderhand/bot/reply"
)

// Sizes of a keyboard: about 100 buttons, 8 in a row (both from memory). A phone
// cuts labels off, so a row holds only as many as can be read on one.
const (
	buttonsMost  = 96
	rowWidth     = 36
	labelPadding = 2
	labelMost    = 60
)

// longMark begins the callback data of a button whose token is too long to send;
// what follows names the button kept in the store.
const longMark = "K1:"

// shortened gives the callback data of a button, and the name to keep the button
// under when its token does not fit.
func shortened(b reply.Button) (data, name string) {
	token := b.Token()
	if len(token) <= reply.MaxToken {
		return token, ""
	}
	sum := sha256.Sum256([]byte(token))
	name = base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(sum[:20])
	return longMark + name, name
}

// link gives the address a button opens instead of sending us its token: what
// someone shared is shown in private. "" for all other buttons.
func (a *Adapter) link(p place, b reply.Button) string {
	code, ok := strings.CutPrefix(b.Line, sharedLine)
	if !ok || !p.group() || !payload(code) || a.name() == "" {
		return ""
	}
	return deepLink(a.name(), code)
}

// keyboard lays the buttons out. keep is called with those whose token is too long
// to send.
func (a *Adapter) keyboard(p place, rows [][]reply.Button, keep func(name string, b reply.Button) error) (string, error) {
	var out [][]tgbotapi.InlineKeyboardButton
	count := 0
	for _, r := range rows {
		width := rowWidth + 1 // begins a new row
		for _, b := range r {
			if count++; count > buttonsMost || b.Line == "" {
				continue
			}
			label := clip(strings.Join(strings.Fields(plain(b.Label)), " "), labelMost)
			if label == "" {
				label = clip(plain(b.Line), labelMost)
			}
			button := tgbotapi.InlineKeyboardButton{Text: label}
			if url := a.link(p, b); url != "" {
				button.URL = &url
			} else {
				data, name := shortened(b)
				if name != "" {
					if err := keep(name, b); err != nil {
						return "", err
					}
				}
				button.CallbackData = &data
			}
			w := uniseg.StringWidth(label) + labelPadding
			if width+w > rowWidth {
				out = append(out, nil)
				width = 0
			}
			width += w
			out[len(out)-1] = append(out[len(out)-1], button)
		}
	}
	if len(out) == 0 {
		return "", nil
	}
	body, err := json.Marshal(tgbotapi.InlineKeyboardMarkup{InlineKeyboard: out})
	return string(body), err
}

// clip shortens a text to so many characters as a person counts them.
func clip(s string, most int) string {
	if uniseg.GraphemeClusterCount(s) <= most {
		return s
	}
	var b strings.Builder
	g := uniseg.NewGraphemes(s)
	for i := 0; i < most-1 && g.Next(); i++ {
		b.WriteString(g.Str())
	}
	return b.String() + "…"
}
