package telegramtest

import (
	"errors"
	"net/http"
	"strings"
)

// handler runs one method. The lock is held.
type handler func(s *Server, c *call) (any, *refusal)

// handlers maps methods in lower case, as the server itself folds them. getUpdates
// stands apart, since it waits.
func handlers() map[string]handler {
	return map[string]handler{
		"getme":                  (*Server).getMe,
		"logout":                 (*Server).endSession,
		"close":                  (*Server).endSession,
		"setwebhook":             (*Server).setWebhook,
		"deletewebhook":          (*Server).deleteWebhook,
		"getwebhookinfo":         (*Server).getWebhookInfo,
		"sendmessage":            (*Server).sendMessage,
		"sendphoto":              (*Server).sendFile,
		"senddocument":           (*Server).sendFile,
		"sendchataction":         (*Server).sendChatAction,
		"editmessagetext":        (*Server).editMessageText,
		"editmessagecaption":     (*Server).editMessageCaption,
		"editmessagemedia":       (*Server).editMessageMedia,
		"editmessagereplymarkup": (*Server).editMessageReplyMarkup,
		"deletemessage":          (*Server).deleteMessage,
		"pinchatmessage":         (*Server).pinChatMessage,
		"unpinchatmessage":       (*Server).unpinChatMessage,
		"answercallbackquery":    (*Server).answerCallbackQuery,
		"setmycommands":          (*Server).setMyCommands,
		"getmycommands":          (*Server).getMyCommands,
		"deletemycommands":       (*Server).deleteMyCommands,
		"setmydescription":       (*Server).setAbout,
		"getmydescription":       (*Server).getAbout,
		"setmyshortdescription":  (*Server).setAbout,
		"getmyshortdescription":  (*Server).getAbout,
		"getchat":                (*Server).getChat,
		"getchatmember":          (*Server).getChatMember,
		"getchatadministrators":  (*Server).getChatAdministrators,
		"leavechat":              (*Server).leaveChat,
		"getfile":                (*Server).getFile,
	}
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, bodyLimit)
	if rest, ok := strings.CutPrefix(r.URL.Path, "/file/bot"); ok {
		s.serveFile(w, r, rest)
		return
	}
	rest, ok := strings.CutPrefix(r.URL.Path, "/bot")
	token, method, slash := strings.Cut(rest, "/")
	if !ok || !slash {
		fail(w, &refusal{code: 404, text: "Not Found"})
		return
	}
	if no := s.checkToken(token); no != nil {
		fail(w, no)
		return
	}
	c, err := readCall(r, method)
	if err != nil {
		fail(w, s.unreadable(r, method, err))
		return
	}
	fault, serving := s.arrive(c)
	if !serving {
		fail(w, &refusal{code: 500, text: "Internal Server Error: restart"})
		return
	}
	if s.strike(w, c, fault) {
		return
	}
	result, no := s.run(c)
	if s.afterwards(w, c, fault) {
		return
	}
	s.answer(w, c, result, no)
}

func fail(w http.ResponseWriter, no *refusal) { writeJSON(w, no.code, no.wait, no.body()) }

func (s *Server) checkToken(token string) *refusal {
	if !strings.Contains(token, ":") || len(token) > 80 {
		return &refusal{code: 401, text: "Unauthorized: invalid token specified"}
	}
	if token != s.cfg.token {
		return &refusal{code: 401, text: "Unauthorized"}
	}
	return nil
}

// unreadable answers a request whose body cannot be taken apart. A client that has
// gone away broke no rule.
func (s *Server) unreadable(r *http.Request, method string, err error) *refusal {
	var tooLarge *http.MaxBytesError
	if errors.As(err, &tooLarge) {
		s.mu.Lock()
		s.violate(method, "a body of more than %d bytes", tooLarge.Limit)
		s.mu.Unlock()
		return &refusal{code: 413, text: "Request Entity Too Large"}
	}
	if r.Context().Err() == nil {
		s.mu.Lock()
		s.violate(method, "%v", err)
		s.mu.Unlock()
	}
	return badRequest("wrong request")
}

// arrive records and checks a call before anything is done about it.
func (s *Server) arrive(c *call) (fault *Injection, serving bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return nil, false
	}
	s.calls = append(s.calls, c.rec)
	s.check(c)
	fault = s.nextFault(c.method, s.chatIDOf(c))
	s.touch()
	return fault, true
}

// run does what the call asks for.
func (s *Server) run(c *call) (any, *refusal) {
	if c.method == "getupdates" && s.cfg.knows(c.method) {
		return s.getUpdates(c)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	h := s.methods[c.method]
	if h == nil || !s.cfg.knows(c.method) {
		return nil, &refusal{code: 404, text: "Not Found: method not found"}
	}
	if s.off != "" {
		return nil, badRequest("Logged out")
	}
	if c.refused != nil {
		return nil, c.refused
	}
	result, no := h(s, c)
	s.touch()
	return result, no
}

// Calls lists the calls of one method so far, or all calls for "".
func (s *Server) Calls(method string) []Call {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Call
	for _, c := range s.calls {
		if method == "" || strings.EqualFold(c.Method, method) {
			out = append(out, *c)
		}
	}
	return out
}
