package discordtest

import (
	"encoding/json"
	"net/http"
)

// answer is a response: a status and a JSON body, nil for none.
type answer struct {
	status int
	body   any
	header http.Header
	html   string // instead of JSON, as a proxy in front answers
}

func done(body any) answer { return answer{status: http.StatusOK, body: body} }

func noContent() answer { return answer{status: http.StatusNoContent} }

// refuse is an error with a code of topics/opcodes-and-status-codes.mdx.
func refuse(status, code int, message string) answer {
	return answer{status: status, body: obj{"code": code, "message": message}}
}

func unknownChannel() answer { return refuse(404, 10003, "Unknown Channel") }
func unknownGuild() answer   { return refuse(404, 10004, "Unknown Guild") }
func unknownMember() answer  { return refuse(404, 10007, "Unknown Member") }
func unknownMessage() answer { return refuse(404, 10008, "Unknown Message") }
func unknownUser() answer    { return refuse(404, 10013, "Unknown User") }
func missingAccess() answer  { return refuse(403, 50001, "Missing Access") }
func missingPermission() answer {
	return refuse(403, 50013, "Missing Permissions")
}

// invalidForm is the answer to a body that breaks the rules (reference.mdx,
// "Error Messages").
func invalidForm(why string) answer {
	return answer{status: 400, body: obj{
		"code": 50035, "message": "Invalid Form Body",
		"errors": obj{"_errors": []any{obj{"code": 0, "message": why}}},
	}}
}

func (a answer) write(w http.ResponseWriter) {
	for k, v := range a.header {
		w.Header()[k] = v
	}
	switch {
	case a.html != "":
		w.Header().Set("Content-Type", "text/html; charset=UTF-8")
		w.WriteHeader(a.status)
		w.Write([]byte(a.html))
	case a.body == nil:
		w.WriteHeader(a.status)
	default:
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(a.status)
		json.NewEncoder(w).Encode(a.body)
	}
}
