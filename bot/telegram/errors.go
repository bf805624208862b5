package telegram

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/store"
)

// ErrToken says that the platform does not take the bot's token.
var ErrToken = errors.New("TELEGRAM_TOKEN is not accepted: copy the bot's token again from @BotFather (and if TELEGRAM_API_URL is set, check that it names a Bot API server)")

// problem is why a call failed. It never holds the token.
type problem struct {
	method  string
	code    int // of the answer; 0 if there was none that says
	text    string
	after   time.Duration // how long the platform asks to wait
	movedTo int64         // the supergroup a group became
	cause   error         // the context's end, if that was it
}

func (p *problem) Error() string {
	if p.code == 0 {
		return fmt.Sprintf("telegram %s: %s", p.method, p.text)
	}
	return fmt.Sprintf("telegram %s: %d %s", p.method, p.code, p.text)
}

func (p *problem) Unwrap() error { return p.cause }

// says reports whether the platform's own words contain one of the texts.
func (p *problem) says(texts ...string) bool {
	for _, t := range texts {
		if strings.Contains(strings.ToLower(p.text), strings.ToLower(t)) {
			return true
		}
	}
	return false
}

// problem makes one of whatever the library or the network gave.
func (a *api) problem(ctx context.Context, method string, status int, err error) *problem {
	p := &problem{method: method, code: status, cause: ctx.Err()}
	var said *tgbotapi.Error
	var of *url.Error
	switch {
	case errors.As(err, &said):
		p.text = said.Message
		p.after = time.Duration(said.RetryAfter) * time.Second
		p.movedTo = said.MigrateToChatID
		if said.Code != 0 { // uploads come without
			p.code = said.Code
		}
	case errors.As(err, &of): // its own text holds the address, and that the token
		p.code, p.text = 0, of.Err.Error()
	default:
		p.text = err.Error()
	}
	p.text = strings.ReplaceAll(strings.ReplaceAll(p.text, a.token, "TOKEN"), url.PathEscape(a.token), "TOKEN")
	return p
}

// What the platform says when the bot may not write somewhere, besides 403
// (tdlib/telegram-bot-api, Client.cpp; the ones in capitals from memory).
var shut = []string{"chat not found", "not enough rights", "have no rights", "need administrator rights",
	"CHAT_WRITE_FORBIDDEN", "CHAT_RESTRICTED", "PEER_ID_INVALID", "USER_IS_BLOCKED", "group chat was deactivated"}

// failure says what a problem means for what was to be delivered.
func failure(err error) *store.Failure {
	var f *store.Failure
	if errors.As(err, &f) {
		return f
	}
	f = &store.Failure{Kind: store.Unknown, Cause: err}
	var p *problem
	if !errors.As(err, &p) {
		return f
	}
	switch {
	case p.after > 0:
		f.Kind, f.After = store.Wait, p.after
	case p.movedTo != 0:
		f.Kind, f.To = store.Moved, place{chat: p.movedTo}.address()
	case p.code == http.StatusForbidden, p.code == http.StatusBadRequest && p.says(shut...):
		f.Kind = store.Gone
	case p.code == http.StatusBadRequest, p.code == http.StatusRequestEntityTooLarge:
		f.Kind = store.Refused
	}
	return f
}

// badToken reports whether the platform does not know the bot. A token that is no
// token at all is answered 404.
func badToken(err error) bool {
	var p *problem
	return errors.As(err, &p) && (p.code == http.StatusUnauthorized || p.code == http.StatusNotFound)
}

// saying reports whether a problem is the platform refusing in certain words.
func saying(err error, texts ...string) bool {
	var p *problem
	return errors.As(err, &p) && p.code == http.StatusBadRequest && p.says(texts...)
}
