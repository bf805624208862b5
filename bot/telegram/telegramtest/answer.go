package telegramtest

import (
	"encoding/json"
	"net/http"
	"strconv"
)

// refusal is an error answer.
type refusal struct {
	code    int
	text    string // the whole description
	wait    int    // parameters.retry_after, seconds
	movedTo int64  // parameters.migrate_to_chat_id
}

func badRequest(text string) *refusal { return &refusal{code: 400, text: "Bad Request: " + text} }
func forbidden(text string) *refusal  { return &refusal{code: 403, text: "Forbidden: " + text} }

// object is a JSON object of the wire.
type object = map[string]any

func (r *refusal) body() object {
	o := object{"ok": false, "error_code": r.code, "description": r.text}
	params := object{}
	if r.wait > 0 {
		params["retry_after"] = r.wait
	}
	if r.movedTo != 0 {
		params["migrate_to_chat_id"] = r.movedTo
	}
	if len(params) > 0 {
		o["parameters"] = params
	}
	return o
}

func writeJSON(w http.ResponseWriter, code, wait int, body object) {
	raw, err := json.Marshal(body)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	if wait > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(wait))
	}
	w.WriteHeader(code)
	w.Write(raw)
}

// answer records and sends the outcome of a call.
func (s *Server) answer(w http.ResponseWriter, c *call, result any, no *refusal) {
	code, wait, body := http.StatusOK, 0, object{"ok": true, "result": result}
	if no != nil {
		code, wait, body = no.code, no.wait, no.body()
	}
	s.mu.Lock()
	s.checkAnswer(c, result, no)
	s.settle(c, no, code)
	s.mu.Unlock()
	writeJSON(w, code, wait, body)
}

// settle notes how a call ended. The lock is held.
func (s *Server) settle(c *call, no *refusal, code int) {
	c.rec.Code = code
	if no != nil {
		c.rec.Description = no.text
	}
	s.touch()
}

// checkAnswer compares what the fake is about to say with the description. The
// lock is held.
func (s *Server) checkAnswer(c *call, result any, no *refusal) {
	if s.spec == nil || !s.spec.Has(c.method) {
		return
	}
	if no == nil {
		raw, err := json.Marshal(result)
		if err != nil {
			s.violate("the fake", "answer to %s: %v", c.rec.Method, err)
			return
		}
		s.shape("the answer to "+c.rec.Method, s.spec.Result(c.method, raw))
		return
	}
	if params, ok := no.body()["parameters"]; ok {
		raw, _ := json.Marshal(params)
		s.shape("an error's parameters", s.spec.Value("ResponseParameters", raw))
	}
}
