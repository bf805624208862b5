package telegramtest_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

// hook is a bot's webhook: it takes updates under the right secret, and refuses
// the first few if told to.
type hook struct {
	mu     sync.Mutex
	refuse int
	got    []tgbotapi.Update
	bare   int // calls without the secret
}

func (h *hook) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if r.Header.Get(telegramtest.SecretHeader) != "secret-1" {
		h.bare++
		w.WriteHeader(http.StatusUnauthorized)
		return
	}
	if h.refuse > 0 {
		h.refuse--
		w.WriteHeader(http.StatusServiceUnavailable)
		return
	}
	var u tgbotapi.Update
	if json.NewDecoder(r.Body).Decode(&u) == nil {
		h.got = append(h.got, u)
	}
}

func (h *hook) ids() []int {
	h.mu.Lock()
	defer h.mu.Unlock()
	var out []int
	for _, u := range h.got {
		out = append(out, u.UpdateID)
	}
	return out
}

func TestWebhook(t *testing.T) {
	h := &hook{refuse: 2}
	local := httptest.NewServer(h)
	t.Cleanup(local.Close)
	const public = "https://larder.example/hook"
	tg := start(t, telegramtest.WithWebhookRoute(public, local.URL), telegramtest.WithWebhookRetry(1))
	bot := client(t, tg)
	ines := tg.User("Ines")
	chat := tg.Private(ines)
	chat.Say(ines, "before")

	if _, err := bot.MakeRequest("setWebhook", tgbotapi.Params{"url": public, "secret_token": "secret-1",
		"allowed_updates": `["message","callback_query","my_chat_member"]`}); err != nil {
		t.Fatal(err)
	}
	chat.Say(ines, "after")
	tg.AwaitConfirmed()
	ids := h.ids()
	if len(ids) != 2 || ids[1] != ids[0]+1 {
		t.Fatalf("delivered %v", ids)
	}
	info, err := bot.GetWebhookInfo()
	if err != nil || info.URL != public || info.PendingUpdateCount != 0 || info.LastErrorMessage != "Wrong response from the webhook: 503 Service Unavailable" {
		t.Errorf("info: %+v %v", info, err)
	}
	_, err = bot.GetUpdates(tgbotapi.UpdateConfig{AllowedUpdates: []string{}})
	refused(t, err, 409, "can't use getUpdates method while webhook is active")

	if code := tg.RepeatUpdate(); code != 200 {
		t.Errorf("repeat: %d", code)
	}
	if got := h.ids(); len(got) != 3 || got[2] != got[1] {
		t.Errorf("after the repeat: %v", got)
	}
	for _, secret := range []string{"", "wrong"} {
		if code := chat.ForgeWebhook(ines, "/discard 3", secret); code != 401 {
			t.Errorf("forged with %q: %d", secret, code)
		}
	}
	if h.bare != 2 {
		t.Errorf("%d forged calls arrived", h.bare)
	}

	if _, err := bot.MakeRequest("deleteWebhook", nil); err != nil {
		t.Fatal(err)
	}
	chat.Say(ines, "polled again")
	if got := drain(t, bot); len(got) != 1 {
		t.Errorf("polled: %+v", got)
	}
}

func TestSetWebhookEndsThePoll(t *testing.T) {
	h := &hook{}
	local := httptest.NewServer(h)
	t.Cleanup(local.Close)
	tg := start(t)
	bot := client(t, tg)
	ended := make(chan error, 1)
	go func() {
		_, err := bot.GetUpdates(tgbotapi.UpdateConfig{Timeout: 50, AllowedUpdates: []string{}})
		ended <- err
	}()
	tg.AwaitPolling()
	if _, err := bot.MakeRequest("setWebhook", tgbotapi.Params{"url": local.URL, "secret_token": "secret-1"}); err != nil {
		t.Fatal(err)
	}
	refused(t, <-ended, 409, "terminated by setWebhook request")
	ines := tg.User("Ines")
	tg.Private(ines).Say(ines, "x")
	tg.AwaitConfirmed()
}

func TestWebhookRules(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	tg.Allow("setWebhook")
	for text, p := range map[string]tgbotapi.Params{
		"HTTPS URL must be provided":                 {"url": "http://larder.example/hook"},
		"only on ports 80, 88, 443 or 8443":          {"url": "https://larder.example:9000/hook"},
		"invalid webhook URL":                        {"url": "nonsense"},
		"secret token contains unallowed characters": {"url": "https://larder.example/", "secret_token": "s p a c e"},
	} {
		_, err := bot.MakeRequest("setWebhook", p)
		refused(t, err, 400, text)
	}
	if v := tg.Violations(); len(v) != 4 {
		t.Errorf("violations: %q", v)
	}
}

func TestWebhookOverTLS(t *testing.T) {
	h := &hook{}
	local := httptest.NewTLSServer(h)
	t.Cleanup(local.Close)
	tg := start(t, telegramtest.WithWebhookClient(local.Client()))
	bot := client(t, tg)
	if _, err := bot.MakeRequest("setWebhook", tgbotapi.Params{"url": local.URL, "secret_token": "secret-1", "max_connections": "1"}); err != nil {
		t.Fatal(err)
	}
	ines := tg.User("Ines")
	tg.Private(ines).Say(ines, "x")
	tg.AwaitConfirmed()
	if len(h.ids()) != 1 {
		t.Errorf("delivered %v", h.ids())
	}
}
