package telegram_test

import (
	"encoding/json"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"larderhand/bot/telegram"
	"larderhand/bot/telegram/telegramtest"
)

func freeAddress(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = l.Close() }()
	return l.Addr().String()
}

func hooked(t *testing.T, public string) (*telegramtest.Server, *rig, string) {
	t.Helper()
	listen := freeAddress(t)
	var opts []telegramtest.Option
	if public == "" {
		public = "http://" + listen + "/updates"
	} else {
		opts = append(opts, telegramtest.WithWebhookRoute(public, "http://"+listen+"/updates"))
	}
	tg := fake(t, opts...)
	r := run(t, tg, func(c *telegram.Config, _ *telegram.Adapter) {
		c.Webhook = telegram.Webhook{URL: public, Listen: listen}
	})
	tg.AwaitCalls("setWebhook", 1)
	return tg, r, listen
}

func TestWebhook(t *testing.T) {
	tg, r, listen := hooked(t, "https://bacon.example/updates")
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r.openBatch(room, ines)
	before := len(room.FromBot())
	room.Say(ines, "flip 1")
	r.settle()
	if code := tg.RepeatUpdate(); code != http.StatusOK {
		t.Errorf("an update that comes again gets %d", code)
	}
	r.settle()
	if list := room.FromBot()[before:]; len(list) != 1 || !strings.Contains(list[0].Text, "flipped") {
		t.Errorf("an update that came twice was answered %v", list)
	}
	for _, secret := range []string{"", "guess", strings.Repeat("a", 64)} {
		if code := room.ForgeWebhook(ines, "discard 1 smelled sour", secret); code != http.StatusUnauthorized {
			t.Errorf("a forged update with the secret %q gets %d", secret, code)
		}
	}
	for _, c := range []struct {
		method, path, body string
		code               int
	}{
		{"GET", "/updates", "", http.StatusMethodNotAllowed},
		{"POST", "/elsewhere", "{}", http.StatusNotFound},
		{"POST", "/updates", "{}", http.StatusUnauthorized},
	} {
		req, err := http.NewRequestWithContext(t.Context(), c.method, "http://"+listen+c.path, strings.NewReader(c.body))
		if err != nil {
			t.Fatal(err)
		}
		resp, err := http.DefaultClient.Do(req)
		if err != nil {
			t.Fatal(err)
		}
		_ = resp.Body.Close()
		if resp.StatusCode != c.code {
			t.Errorf("%s %s gets %d", c.method, c.path, resp.StatusCode)
		}
	}
	room.Say(ines, "batches")
	r.settle()
	if m := last(t, room); !strings.Contains(m.Text, "curing") {
		t.Errorf("the batch after the forgeries: %q", m.Text)
	}
	if len(tg.Calls("getUpdates")) != 0 {
		t.Error("updates are fetched as well")
	}
}

// Bodies that are no update, or far too large, change nothing and break nothing.
func TestWebhookOddBodies(t *testing.T) {
	tg, r, listen := hooked(t, "")
	secret := tg.Calls("setWebhook")[0].Params["secret_token"]
	for body, code := range map[string]int{
		"": 400, "not json": 400, "[]": 200, "{}": 200, `{"update_id":1}`: 200, `{"update_id":"x"}`: 200, `{"update_id":800000009,"message":7}`: 200,
		`{"update_id":800000010,"message":{"message_id":1,"date":0}}`: 200, `{"update_id":800000011,"callback_query":{"id":"1"}}`: 200,
		`"` + strings.Repeat("x", 2<<20) + `"`: 400,
	} {
		if got := deliver(t, listen, secret, body); got != code {
			t.Errorf("%.40q gets %d, want %d", body, got, code)
		}
	}
	r.settle()
}

// Ten thousand characters, more than an app lets anyone type, are answered whatever
// they are, and what is kept of them comes back whole.
func TestTenThousandCharacters(t *testing.T) {
	tg, r, listen := hooked(t, "")
	ines := tg.User("Ines")
	room := tg.Private(ines)
	r.openBatch(room, ines)
	secret := tg.Calls("setWebhook")[0].Params["secret_token"]
	for i, text := range []string{strings.Repeat("5 lb juniper ", 770), strings.Repeat("🥓", 10000), "note 1 " + strings.Repeat("<b>&", 2490),
		strings.Repeat("/", 10000), "/note 1 " + strings.Repeat("שלום ", 1990), strings.Repeat("x", 30000)} {
		body, err := json.Marshal(map[string]any{"update_id": 810000000 + i, "message": map[string]any{"message_id": 900 + i, "date": time.Now().Unix(), "text": text,
			"chat": map[string]any{"id": room.ID(), "type": "private", "first_name": "Ines"}, "from": map[string]any{"id": ines.ID, "is_bot": false, "first_name": "Ines"}}})
		if err != nil {
			t.Fatal(err)
		}
		before := len(room.FromBot())
		if code := deliver(t, listen, secret, string(body)); code != http.StatusOK {
			t.Fatalf("text %d gets %d", i, code)
		}
		r.settle()
		if len(room.FromBot()) == before {
			t.Errorf("text %d is not answered", i)
		}
	}
	room.Say(ines, "batch 1")
	r.settle()
}

// deliver posts a body as the platform would and gives the status.
func deliver(t *testing.T, listen, secret, body string) int {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), "POST", "http://"+listen+"/updates", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set(telegram.SecretHeader, secret)
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	_ = resp.Body.Close()
	return resp.StatusCode
}
