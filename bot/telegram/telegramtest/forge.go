package telegramtest

import (
	"context"
	"encoding/json"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// ForgeWebhook posts to the bot's webhook an update that Telegram never made: a
// text as if someone had typed it, under a secret of the forger's choice ("" sends
// no secret at all). It returns the bot's HTTP status.
func (r *Room) ForgeWebhook(u *User, text, secret string) int {
	s := r.s
	s.t.Helper()
	s.mu.Lock()
	m := &message{id: 1 << 30, chat: r.chat, from: u, date: s.date(), text: markup.Text{Plain: text}.WithDetected()}
	raw, err := json.Marshal(object{"update_id": firstUpdate + 1<<20, "message": s.wireMessage(m, false)})
	to := s.hook.url
	s.mu.Unlock()
	if err != nil || to == "" {
		s.t.Fatalf("telegram: no webhook to forge an update for (%v)", err)
	}
	return s.postNow(to, secret, raw)
}

// RepeatUpdate posts the last update the webhook took once more, as happens when
// its answer was lost on the way. It returns the bot's HTTP status.
func (s *Server) RepeatUpdate() int {
	s.t.Helper()
	s.mu.Lock()
	hook := s.hook
	s.mu.Unlock()
	if hook.delivered.raw == nil {
		s.t.Fatalf("telegram: the webhook took no update yet")
	}
	return s.postNow(hook.url, hook.secret, hook.delivered.raw)
}

func (s *Server) postNow(to, secret string, raw []byte) int {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), s.cfg.patience)
	defer cancel()
	code, err := s.postUpdate(ctx, to, secret, raw)
	if err != nil {
		s.t.Fatalf("telegram: posting to the webhook: %v", err)
	}
	return code
}
