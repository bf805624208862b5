package telegramtest

import (
	"maps"
	"slices"
	"strings"
)

// check holds a call against the description and the published limits. The lock
// is held.
func (s *Server) check(c *call) {
	s.slips.seen++
	if s.spec != nil {
		s.slips.checked++
		s.cfg.tally.count(1, 0, 1)
		for _, p := range s.spec.Call(c.method, c.params, slices.Sorted(maps.Keys(c.uploads))) {
			s.violate(c.rec.Method, "%s", p)
		}
	} else {
		s.cfg.tally.count(0, 0, 1)
	}
	if !s.cfg.knows(c.method) {
		return
	}
	if s.methods[c.method] == nil && c.method != "getupdates" {
		s.violate(c.rec.Method, "this fake does not model the method")
		return
	}
	s.checkPlace(c)
	for _, look := range limitsOf[c.method] {
		if no := look(s, c); no != nil && c.refused == nil {
			c.refused = no
		}
	}
}

// limit looks at one aspect of a call, reports what breaks a rule and returns the
// server's answer to it. What it parsed it leaves in the call. The lock is held.
type limit func(s *Server, c *call) *refusal

var limitsOf = map[string][]limit{
	"getupdates":             {limitPoll},
	"setwebhook":             {limitWebhook},
	"sendmessage":            {limitMessageText, limitMarkup},
	"sendphoto":              {limitMedia, limitCaption, limitMarkup},
	"senddocument":           {limitMedia, limitCaption, limitMarkup},
	"sendchataction":         {limitAction},
	"editmessagetext":        {limitMessageText, limitMarkup, limitTarget},
	"editmessagecaption":     {limitCaption, limitMarkup, limitTarget},
	"editmessagemedia":       {limitNewMedia, limitMarkup, limitTarget},
	"editmessagereplymarkup": {limitMarkup, limitTarget},
	"answercallbackquery":    {limitPressAnswer},
	"setmycommands":          {limitCommands, limitScope},
	"getmycommands":          {limitScope},
	"deletemycommands":       {limitScope},
	"setmydescription":       {limitAbout},
	"setmyshortdescription":  {limitAbout},
	"getmydescription":       {limitLanguage},
	"getmyshortdescription":  {limitLanguage},
}

// limitTarget wants the message of an edit named (the fake has no inline
// messages).
func limitTarget(s *Server, c *call) *refusal {
	if c.has("inline_message_id") {
		s.violate(c.rec.Method, "this fake does not model inline messages")
	}
	if !c.has("chat_id") || !c.has("message_id") {
		s.violate(c.rec.Method, "chat_id and message_id are needed together")
		return badRequest("message identifier is not specified")
	}
	return nil
}

// The actions of sendChatAction.
const chatActions = " typing upload_photo record_video upload_video record_voice upload_voice upload_document choose_sticker find_location record_video_note upload_video_note "

func limitAction(s *Server, c *call) *refusal {
	if a := c.params["action"]; !strings.Contains(chatActions, " "+a+" ") {
		s.violate(c.rec.Method, "there is no action %q", a)
		return badRequest("wrong parameter action in request")
	}
	return nil
}

// limitPoll: limit is 1–100, a timeout is not negative (Bot API, getUpdates). The
// server caps the timeout at 50 seconds.
func limitPoll(s *Server, c *call) *refusal {
	if n := c.integer("limit"); c.has("limit") && (n < 1 || n > 100) {
		s.violate(c.rec.Method, "limit %d is not within 1–100", n)
	}
	if n := c.integer("timeout"); n < 0 {
		s.violate(c.rec.Method, "a negative timeout")
	}
	return nil
}
