package telegram

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"strings"
	"testing"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/store"
)

func storeAddress(s string) store.Address { return store.Address(s) }

// The platform's own words for what can go wrong (tdlib/telegram-bot-api,
// Client.cpp; the ones in capitals from memory).
func TestFailureKinds(t *testing.T) {
	for _, c := range []struct {
		code int
		text string
		with tgbotapi.ResponseParameters
		kind store.FailureKind
	}{
		{429, "Too Many Requests: retry after 35", tgbotapi.ResponseParameters{RetryAfter: 35}, store.Wait},
		{0, "Too Many Requests: retry after 35", tgbotapi.ResponseParameters{RetryAfter: 35}, store.Wait}, // an upload
		{400, "Bad Request: group chat was upgraded to a supergroup chat", tgbotapi.ResponseParameters{MigrateToChatID: -1002}, store.Moved},
		{403, "Forbidden: bot was blocked by the user", tgbotapi.ResponseParameters{}, store.Gone},
		{403, "Forbidden: user is deactivated", tgbotapi.ResponseParameters{}, store.Gone},
		{403, "Forbidden: bot was kicked from the supergroup chat", tgbotapi.ResponseParameters{}, store.Gone},
		{403, "Forbidden: the group chat was deleted", tgbotapi.ResponseParameters{}, store.Gone},
		{400, "Bad Request: chat not found", tgbotapi.ResponseParameters{}, store.Gone},
		{400, "Bad Request: not enough rights to send text messages to the chat", tgbotapi.ResponseParameters{}, store.Gone},
		{400, "Bad Request: CHAT_WRITE_FORBIDDEN", tgbotapi.ResponseParameters{}, store.Gone},
		{400, "Bad Request: message is too long", tgbotapi.ResponseParameters{}, store.Refused},
		{413, "Request Entity Too Large", tgbotapi.ResponseParameters{}, store.Refused},
		{500, "Internal Server Error", tgbotapi.ResponseParameters{}, store.Unknown},
		{401, "Unauthorized", tgbotapi.ResponseParameters{}, store.Unknown},
	} {
		a := &api{token: "7:secret"}
		f := failure(a.problem(t.Context(), "sendMessage", c.code, &tgbotapi.Error{Code: c.code, Message: c.text, ResponseParameters: c.with}))
		if f.Kind != c.kind {
			t.Errorf("%d %s: %v", c.code, c.text, f)
		}
		if c.with.RetryAfter != 0 && f.After != 35*time.Second || c.with.MigrateToChatID != 0 && f.To != "telegram:-1002" {
			t.Errorf("%s: after %s, to %s", c.text, f.After, f.To)
		}
	}
	if f := failure(errors.New("anything")); f.Kind != store.Unknown {
		t.Errorf("an error from elsewhere is %v", f)
	}
}

// An upload's error carries no code; the answer's own status stands in.
func TestUploadErrorsAreJudgedByStatus(t *testing.T) {
	a := &api{token: "7:secret"}
	if f := failure(a.problem(t.Context(), "sendPhoto", 403, &tgbotapi.Error{Message: "Forbidden: bot was blocked by the user"})); f.Kind != store.Gone {
		t.Errorf("got %v", f)
	}
}

func TestNoTokenInErrors(t *testing.T) {
	const token = "7:sec ret/é"
	a := &api{token: token}
	for _, err := range []error{
		&url.Error{Op: "Post", URL: "http://x/bot" + token + "/sendMessage", Err: errors.New("connection refused")},
		fmt.Errorf("parse %q: bad", "http://x/bot"+token+"/getMe"),
		fmt.Errorf("parse http://x/bot%s: bad", token), fmt.Errorf("at %s", url.PathEscape(token)),
		&tgbotapi.Error{Code: 404, Message: "no method for " + token},
	} {
		for _, e := range []error{a.problem(t.Context(), "getMe", 0, err), failure(a.problem(t.Context(), "getMe", 0, err))} {
			if s := e.Error(); strings.Contains(s, "sec ret") || strings.Contains(s, "sec%20ret") {
				t.Errorf("the token is in %q", s)
			}
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := a.problem(ctx, "getMe", 0, context.Canceled); !errors.Is(err, context.Canceled) {
		t.Error("the end of the context cannot be told")
	}
}
