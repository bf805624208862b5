package telegram

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"time"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// What the library's last release lacks: contexts, forum topics and other fields
// newer than 2021. Calls go through its raw request with a client bound to a
// context; what comes in is decoded twice, once by the library's types and once by
// the ones here.

// api makes calls.
type api struct {
	token string
	base  string        // without the slash at the end
	most  time.Duration // how long a call may take
	http  *http.Client
}

// callTime bounds a call, uploads included, where nothing else is asked for.
const callTime = 40 * time.Second

// within is the library's client with a context in it.
type within struct {
	ctx    context.Context
	http   *http.Client
	status int // of the last answer; the library loses it on uploads and on bodies that are not JSON
}

func (w *within) Do(r *http.Request) (*http.Response, error) {
	resp, err := w.http.Do(r.WithContext(w.ctx))
	if resp != nil {
		w.status = resp.StatusCode
	}
	return resp, err
}

func (a *api) bound(ctx context.Context) (*tgbotapi.BotAPI, *within) {
	w := &within{ctx: ctx, http: a.http}
	bot := &tgbotapi.BotAPI{Token: a.token, Client: w}
	bot.SetAPIEndpoint(a.base + "/bot%s/%s")
	return bot, w
}

// call makes a call and reads its result into out, unless that is nil. An error is
// a *problem.
func (a *api) call(ctx context.Context, method string, params map[string]string, out any) error {
	return a.callWithin(ctx, a.most, method, params, out)
}

func (a *api) callWithin(ctx context.Context, most time.Duration, method string, params map[string]string, out any) error {
	ctx, cancel := context.WithTimeout(ctx, most)
	defer cancel()
	bot, w := a.bound(ctx)
	resp, err := bot.MakeRequest(method, params)
	return a.result(ctx, method, w, resp, err, out)
}

// upload makes a call that sends a file.
func (a *api) upload(ctx context.Context, method string, params map[string]string, field, name string, data []byte, out any) error {
	ctx, cancel := context.WithTimeout(ctx, a.most)
	defer cancel()
	bot, w := a.bound(ctx)
	resp, err := bot.UploadFiles(method, params, []tgbotapi.RequestFile{{Name: field, Data: tgbotapi.FileBytes{Name: name, Bytes: data}}})
	return a.result(ctx, method, w, resp, err, out)
}

func (a *api) result(ctx context.Context, method string, w *within, resp *tgbotapi.APIResponse, err error, out any) error {
	if err == nil && out != nil {
		err = json.Unmarshal(resp.Result, out)
	}
	if err != nil {
		return a.problem(ctx, method, w.status, err)
	}
	return nil
}

// download fetches a file someone sent, if it is no longer than most bytes.
func (a *api) download(ctx context.Context, id string, most int64) ([]byte, error) {
	var f tgbotapi.File
	if err := a.call(ctx, "getFile", map[string]string{"file_id": id}, &f); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, a.most)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, a.base+"/file/bot"+a.token+"/"+f.FilePath, nil)
	if err != nil {
		return nil, a.problem(ctx, "download", 0, err)
	}
	resp, err := a.http.Do(req)
	if err != nil {
		return nil, a.problem(ctx, "download", 0, err)
	}
	defer func() { _ = resp.Body.Close() }()
	if resp.StatusCode != http.StatusOK {
		return nil, &problem{method: "download", code: resp.StatusCode, text: resp.Status}
	}
	body, err := io.ReadAll(io.LimitReader(resp.Body, most+1))
	if err != nil {
		return nil, a.problem(ctx, "download", resp.StatusCode, err)
	}
	if int64(len(body)) > most {
		return nil, &problem{method: "download", text: "the file is longer than it said"}
	}
	return body, nil
}

// update is what came in, decoded twice.
type update struct {
	tgbotapi.Update
	newer struct {
		Message       *newerMessage `json:"message"`
		CallbackQuery *struct {
			Message *newerMessage `json:"message"`
		} `json:"callback_query"`
	}
}

// newerMessage holds the fields of a message the library does not know.
type newerMessage struct {
	Thread   int              `json:"message_thread_id"`
	InTopic  bool             `json:"is_topic_message"`
	Forward  bool             `json:"is_automatic_forward"`
	Reopened *json.RawMessage `json:"forum_topic_reopened"`
	Created  *named           `json:"forum_topic_created"`
	Edited   *named           `json:"forum_topic_edited"`
	Answers  *newerMessage    `json:"reply_to_message"`
}

func decodeUpdate(raw []byte) (update, error) {
	var u update
	if err := json.Unmarshal(raw, &u.Update); err != nil {
		return u, err
	}
	return u, json.Unmarshal(raw, &u.newer)
}

// topic is the message's topic, 0 outside topics: in a group without topics a plain
// answer carries a thread number too, and that is no topic.
func (m *newerMessage) topic() int {
	if m == nil || !m.InTopic {
		return 0
	}
	return m.Thread
}
