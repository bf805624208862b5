package telegramtest

import (
	"strings"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// deliver passes a message on to the bot if the bot may see it. The prefix is ""
// or "edited_". The lock is held.
func (s *Server) deliver(prefix string, m *message) {
	if !s.botSees(m) {
		return
	}
	kind := prefix + "message"
	if m.chat.kind == channel {
		kind = prefix + "channel_post"
	}
	s.push(kind, s.wireMessage(m, true))
}

// botSees follows core.telegram.org/bots/features#privacy-mode: all messages of
// private chats and channels, all service messages; in groups everything for
// administrators and for bots with privacy mode off, except what other bots say;
// else what is meant for the bot.
func (s *Server) botSees(m *message) bool {
	ch := m.chat
	me := ch.members[s.bot.ID]
	switch {
	case ch.kind == private:
		return ch.started && !ch.blocked && !ch.dissolved
	case !me.in():
		return false
	case ch.kind == channel, m.service != nil:
		return true
	case m.from != nil && m.from.IsBot && m.as == nil:
		return false
	case !s.cfg.privacy || me.admin():
		return true
	}
	return s.meantForBot(m)
}

// meantForBot: a command with the bot's name on it, a bare command if the bot was
// the last bot to speak, a mention (BotFather's words on /setprivacy, from memory),
// an answer to something the bot said.
func (s *Server) meantForBot(m *message) bool {
	if answered := m.chat.find(m.replyTo); m.replyTo != 0 && answered != nil && answered.mine {
		return true
	}
	for _, t := range []markup.Text{m.text, m.caption} {
		for _, e := range t.Entities {
			word := markup.Cut(t.Plain, e)
			switch e.Type {
			case "mention":
				if strings.EqualFold(word, "@"+s.cfg.username) {
					return true
				}
			case "bot_command":
				_, name, addressed := strings.Cut(word, "@")
				if addressed && strings.EqualFold(name, s.cfg.username) {
					return true
				}
				if last := m.chat.lastBot; !addressed && (last == 0 || last == s.bot.ID) {
					return true
				}
			}
		}
	}
	return false
}
