package telegramtest

import (
	"encoding/json"
	"strings"
)

// menuKey names one list of commands.
type menuKey struct {
	scope    string
	chat     int64
	user     int64
	language string
}

type aboutKey struct{ field, language string }

// scopeOf reads the scope and language of a call.
func (s *Server) scopeOf(c *call) (menuKey, *refusal) {
	key := menuKey{scope: "default", language: c.params["language_code"]}
	if c.params["scope"] == "" {
		return key, nil
	}
	var in struct {
		Type string          `json:"type"`
		Chat json.RawMessage `json:"chat_id"`
		User int64           `json:"user_id"`
	}
	if err := json.Unmarshal([]byte(c.params["scope"]), &in); err != nil {
		return key, badRequest("can't parse BotCommandScope JSON object")
	}
	key.scope = in.Type
	switch in.Type {
	case "default", "all_private_chats", "all_group_chats", "all_chat_administrators":
		return key, nil
	case "chat", "chat_administrators", "chat_member":
	default:
		return key, badRequest("can't parse BotCommandScope: Unsupported type specified")
	}
	ch := s.chatParam(strings.Trim(string(in.Chat), `"`))
	if ch == nil {
		return key, badRequest("chat not found")
	}
	key.chat = ch.id
	if in.Type == "chat_member" {
		if in.User <= 0 {
			return key, badRequest("can't parse BotCommandScope: Invalid user_id specified")
		}
		key.user = in.User
	}
	return key, nil
}

func (s *Server) setMyCommands(c *call) (any, *refusal) {
	key, no := s.scopeOf(c)
	if no != nil {
		return nil, no
	}
	var list []Command
	if err := json.Unmarshal([]byte(c.params["commands"]), &list); err != nil {
		return nil, badRequest("can't parse commands JSON object")
	}
	s.menus[key] = list
	if len(list) == 0 {
		delete(s.menus, key)
	}
	return true, nil
}

func (s *Server) getMyCommands(c *call) (any, *refusal) {
	key, no := s.scopeOf(c)
	if no != nil {
		return nil, no
	}
	return append([]Command{}, s.menus[key]...), nil
}

func (s *Server) deleteMyCommands(c *call) (any, *refusal) {
	key, no := s.scopeOf(c)
	if no != nil {
		return nil, no
	}
	delete(s.menus, key)
	return true, nil
}

// aboutField is "description" or "short_description", from the method's name.
func aboutField(method string) string {
	if strings.HasSuffix(method, "shortdescription") {
		return "short_description"
	}
	return "description"
}

func (s *Server) setAbout(c *call) (any, *refusal) {
	field := aboutField(c.method)
	s.about[aboutKey{field, c.params["language_code"]}] = c.params[field]
	return true, nil
}

func (s *Server) getAbout(c *call) (any, *refusal) {
	field := aboutField(c.method)
	return object{field: s.about[aboutKey{field, c.params["language_code"]}]}, nil
}

// Description is what an empty chat with the bot shows, and ShortDescription what
// its profile shows, to someone of a language.
func (s *Server) Description(language string) string { return s.aboutIn("description", language) }

// ShortDescription is described at Description.
func (s *Server) ShortDescription(language string) string {
	return s.aboutIn("short_description", language)
}

func (s *Server) aboutIn(field, language string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	if text := s.about[aboutKey{field, language}]; text != "" {
		return text
	}
	return s.about[aboutKey{field, ""}]
}

// MenuFor is the list of commands a person sees in a chat, found in the published
// order (Bot API, "Determining list of commands").
func (r *Room) MenuFor(u *User) []Command {
	s := r.s
	s.mu.Lock()
	defer s.mu.Unlock()
	ch := r.chat
	order := []menuKey{{scope: "chat_member", chat: ch.id, user: u.ID}}
	if ch.members[u.ID].admin() {
		order = append(order, menuKey{scope: "chat_administrators", chat: ch.id})
	}
	order = append(order, menuKey{scope: "chat", chat: ch.id})
	if ch.kind == private {
		order = append(order, menuKey{scope: "all_private_chats"})
	} else {
		if ch.members[u.ID].admin() {
			order = append(order, menuKey{scope: "all_chat_administrators"})
		}
		order = append(order, menuKey{scope: "all_group_chats"})
	}
	order = append(order, menuKey{scope: "default"})
	for _, key := range order {
		for _, language := range []string{u.Language, ""} {
			key.language = language
			if list, ok := s.menus[key]; ok {
				return append([]Command(nil), list...)
			}
		}
	}
	return nil
}
