package discordtest

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
)

// operation finds a route in the description.
func (s *Server) operation(pattern string) (keys []string, op obj) {
	method, template, _ := strings.Cut(pattern, " ")
	keys = []string{"paths", template, strings.ToLower(method)}
	return keys, s.spec.at(keys...)
}

// checkRequest holds query and body to the description.
func (s *Server) checkRequest(c *call) {
	if s.spec == nil {
		return
	}
	keys, op := s.operation(c.pattern)
	if op == nil {
		return
	}
	s.countRequest()
	s.checkQuery(c, op)
	if op["requestBody"] == nil {
		return
	}
	if c.body == nil {
		if truth(object(op["requestBody"])["required"]) && len(c.files) == 0 {
			c.breach("the OpenAPI description wants a body")
		}
		return
	}
	media := "application/json"
	content := object(object(op["requestBody"])["content"])
	if content[media] == nil {
		return
	}
	body := asDescribed(c.pattern, c.body)
	if err := s.spec.hold(body, append(keys, "requestBody", "content", media, "schema")...); err != nil {
		c.breach("the body is not as the OpenAPI description wants it: %v", err)
	}
	s.checkNames(c, object(object(content[media])["schema"]))
}

// asDescribed bridges where the prose documents and the OpenAPI description
// differ and discordgo follows the prose: a permission bit set is a string
// there, an integer here; an attachment's id may be a number there.
func asDescribed(pattern string, body any) any {
	if !strings.Contains(pattern, "/commands") {
		if list(object(body)["attachments"]) == nil && object(object(body)["data"])["attachments"] == nil {
			return body
		}
		copied := recast(body)
		for _, holder := range []obj{object(copied), object(object(copied)["data"])} {
			for _, a := range list(holder["attachments"]) {
				object(a)["id"] = idOf(object(a)["id"])
			}
		}
		return copied
	}
	copied := recast(body)
	defs := list(copied)
	if defs == nil {
		defs = []any{copied}
	}
	for _, d := range defs {
		if def := object(d); def["default_member_permissions"] != nil {
			if p, err := parsePermissions(def["default_member_permissions"]); err == nil {
				def["default_member_permissions"] = int(p)
			}
		}
	}
	return copied
}

// strayNames are fields discordgo sends along where no schema knows them.
var strayNames = []string{"ID", "Channel", "invitable"}

// checkNames catches a misspelt field, which the description lets pass: where
// the body has one schema, every field has to be in it.
func (s *Server) checkNames(c *call, schema obj) {
	name, ok := strings.CutPrefix(text(schema["$ref"]), "#/components/schemas/")
	if !ok {
		return
	}
	known := object(s.spec.at("components", "schemas", name)["properties"])
	for key := range c.object() {
		if known[key] == nil && !slices.Contains(strayNames, key) {
			c.breach("the OpenAPI description knows no field %q here", key)
		}
	}
}

func (s *Server) checkQuery(c *call, op obj) {
	_, template, _ := strings.Cut(c.pattern, " ")
	params := slices.Concat(list(op["parameters"]), list(s.spec.at("paths", template)["parameters"]))
	for name := range c.r.URL.Query() {
		if !slices.ContainsFunc(params, func(v any) bool {
			return text(object(v)["name"]) == name && text(object(v)["in"]) == "query"
		}) {
			c.breach("the OpenAPI description knows no query parameter %q here", name)
		}
	}
}

// checkAnswer holds the fake's own answer to the description.
func (s *Server) checkAnswer(c *call, a answer) {
	if s.spec == nil || a.html != "" || a.status >= 500 {
		return
	}
	keys, op := s.operation(c.pattern)
	if op == nil {
		return
	}
	schema := responseSchema(keys, op, a.status)
	if schema == nil {
		s.violate("fake: %s answers %d, which the OpenAPI description does not know", c.pattern, a.status)
		return
	}
	s.countOther()
	if a.body == nil {
		return
	}
	if err := s.spec.hold(recast(a.body), schema...); err != nil {
		s.violate("fake: the answer %d to %s is not as the OpenAPI description has it: %v", a.status, c.pattern, err)
	}
}

func responseSchema(keys []string, op obj, status int) []string {
	if status == http.StatusTooManyRequests {
		return []string{"components", "schemas", "RatelimitedResponse"}
	}
	if status >= 400 {
		return []string{"components", "schemas", "ErrorResponse"}
	}
	code := fmt.Sprint(status)
	if object(op["responses"])[code] == nil {
		return nil
	}
	return append(keys, "responses", code, "content", "application/json", "schema")
}
