package telegramtest_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"net/http"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

var tally telegramtest.Tally

func TestMain(m *testing.M) { os.Exit(tally.Run(m)) }

func start(t testing.TB, opts ...telegramtest.Option) *telegramtest.Server {
	t.Helper()
	return telegramtest.New(t, append([]telegramtest.Option{telegramtest.WithTally(&tally)}, opts...)...)
}

// within sends the library's requests under a context, so that a test can end them.
type within struct{ ctx context.Context }

func (w within) Do(r *http.Request) (*http.Response, error) {
	return http.DefaultClient.Do(r.WithContext(w.ctx))
}

func client(t testing.TB, tg *telegramtest.Server) *tgbotapi.BotAPI {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	t.Cleanup(cancel)
	bot, err := tgbotapi.NewBotAPIWithClient(tg.Token(), tg.URL()+"/bot%s/%s", within{ctx})
	if err != nil {
		t.Fatal(err)
	}
	return bot
}

// updates polls once for what is there; nothing there is an empty list.
func updates(t testing.TB, bot *tgbotapi.BotAPI, offset int) []tgbotapi.Update {
	t.Helper()
	got, err := bot.GetUpdates(tgbotapi.UpdateConfig{Offset: offset, AllowedUpdates: []string{}})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// drain reads everything pending and confirms it.
func drain(t testing.TB, bot *tgbotapi.BotAPI) []tgbotapi.Update {
	t.Helper()
	got := updates(t, bot, 0)
	if len(got) > 0 {
		updates(t, bot, got[len(got)-1].UpdateID+1)
	}
	return got
}

// refused wants a call to fail with a code and a text.
func refused(t testing.TB, err error, code int, text string) *tgbotapi.Error {
	t.Helper()
	var e *tgbotapi.Error
	if !errors.As(err, &e) {
		t.Errorf("got %v, want %d %q", err, code, text)
		return &tgbotapi.Error{}
	}
	if e.Code != code || !strings.Contains(e.Message, text) {
		t.Errorf("got %d %q, want %d %q", e.Code, e.Message, code, text)
	}
	return e
}

func send(t testing.TB, bot *tgbotapi.BotAPI, c tgbotapi.Chattable) tgbotapi.Message {
	t.Helper()
	m, err := bot.Send(c)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func html(chat int64, text string) tgbotapi.MessageConfig {
	m := tgbotapi.NewMessage(chat, text)
	m.ParseMode = tgbotapi.ModeHTML
	return m
}

func picture(t testing.TB, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// recorder is a test that is allowed to fail.
type recorder struct {
	testing.TB
	mu   sync.Mutex
	said []string
}

func (r *recorder) Errorf(format string, args ...any) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.said = append(r.said, fmt.Sprintf(format, args...))
}

// Fatalf ends the goroutine that fails, as the real one does.
func (r *recorder) Fatalf(format string, args ...any) {
	r.Errorf(format, args...)
	runtime.Goexit()
}

func (r *recorder) text() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return strings.Join(r.said, "\n")
}

func chatID(r *telegramtest.Room) string { return strconv.FormatInt(r.ID(), 10) }

func described() bool { return os.Getenv(telegramtest.SpecsVariable) != "" }

// post makes a call with a JSON body and wants it to succeed.
func post(t testing.TB, tg *telegramtest.Server, method, body string) {
	t.Helper()
	resp, err := http.Post(tg.URL()+"/bot"+tg.Token()+"/"+method, "application/json", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if resp.StatusCode != 200 {
		t.Errorf("%s: %s", method, resp.Status)
	}
}
