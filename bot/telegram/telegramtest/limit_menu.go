package telegramtest

import (
	"encoding/json"
	"regexp"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Command is one line of a bot's menu. The JSON names are those of BotCommand.
type Command struct {
	Name        string `json:"command"`
	Description string `json:"description"`
}

// Limits of a menu (Bot API, setMyCommands and BotCommand) and of the texts about
// the bot (setMyDescription, setMyShortDescription).
const (
	commandsMost    = 100
	commandTextMost = 256
	aboutMost       = 512
	aboutShortMost  = 120
)

var (
	commandName  = regexp.MustCompile(`^[a-z0-9_]{1,32}$`)
	languageCode = regexp.MustCompile(`^([a-z]{2})?$`)
)

func limitCommands(s *Server, c *call) *refusal {
	var list []Command
	if err := json.Unmarshal([]byte(c.params["commands"]), &list); err != nil {
		s.violate(c.rec.Method, "commands: %v", err)
		return badRequest("can't parse commands JSON object")
	}
	var refused *refusal
	if len(list) > commandsMost {
		s.violate(c.rec.Method, "%d commands, at most %d are allowed", len(list), commandsMost)
		refused = badRequest("BOT_COMMANDS_TOO_MUCH")
	}
	seen := map[string]bool{}
	for _, cmd := range list {
		if !commandName.MatchString(cmd.Name) {
			s.violate(c.rec.Method, "the command %q: 1–32 of a–z, 0–9 and _ are allowed", cmd.Name)
			refused = badRequest("BOT_COMMAND_INVALID")
		}
		if n := markup.Len(cmd.Description); n < 1 || n > commandTextMost {
			s.violate(c.rec.Method, "the command %q is described in %d characters, 1–%d are allowed", cmd.Name, n, commandTextMost)
			refused = badRequest("BOT_COMMAND_DESCRIPTION_INVALID")
		}
		if seen[cmd.Name] {
			s.violate(c.rec.Method, "the command %q is listed twice", cmd.Name)
		}
		seen[cmd.Name] = true
	}
	return refused
}

func limitScope(s *Server, c *call) *refusal {
	if no := limitLanguage(s, c); no != nil {
		return no
	}
	key, no := s.scopeOf(c)
	if no != nil {
		s.violate(c.rec.Method, "scope %s: %s", c.params["scope"], no.text)
		return no
	}
	if key.chat != 0 && s.people.chats[key.chat] == nil {
		s.violate(c.rec.Method, "there is no chat %d", key.chat)
		return badRequest("chat not found")
	}
	return nil
}

func limitLanguage(s *Server, c *call) *refusal {
	if code := c.params["language_code"]; !languageCode.MatchString(code) {
		s.violate(c.rec.Method, "%q is no two-letter language code", code)
		return badRequest("invalid language code specified")
	}
	return nil
}

func limitAbout(s *Server, c *call) *refusal {
	field, most := "description", aboutMost
	if c.method == "setmyshortdescription" {
		field, most = "short_description", aboutShortMost
	}
	if n := markup.Len(c.params[field]); n > most {
		s.violate(c.rec.Method, "a %s of %d characters, at most %d are allowed", field, n, most)
		return badRequest("description is too long")
	}
	return limitLanguage(s, c)
}
