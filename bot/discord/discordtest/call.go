package discordtest

import (
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"net/url"
	"regexp"
	"strings"
)

// call is one request, read and decoded.
type call struct {
	s       *Server
	r       *http.Request
	path    string // below /api/v9
	pattern string // "POST /channels/{channel_id}/messages"
	raw     []byte // the JSON, taken out of a form if need be
	body    any
	files   []upload
	size    int
	broke   []string // breaches found
}

type upload struct {
	File
	index string // the n of files[n]
}

// maxRequest is the published limit of a request that sends a message
// (resources/message.mdx, "Create Message"): 25 MiB; maxFile of one file
// (reference.mdx, "Uploading Files"): 10 MiB.
const (
	maxRequest = 25 << 20
	maxFile    = 10 << 20
)

func (c *call) id(name string) string { return c.r.PathValue(name) }

func (c *call) object() obj {
	o := object(c.body)
	if o == nil {
		return obj{}
	}
	return o
}

// breach notes a breach of a published rule.
func (c *call) breach(format string, args ...any) {
	what := fmt.Sprintf(format, args...)
	c.broke = append(c.broke, what)
	c.s.violate("%s %s: %s", c.r.Method, c.path, what)
}

// read takes the body in.
func (c *call) read() error {
	raw, err := io.ReadAll(c.r.Body)
	if err != nil {
		return err
	}
	c.size = len(raw)
	if len(raw) == 0 {
		return nil
	}
	kind, params, err := mime.ParseMediaType(c.r.Header.Get("Content-Type"))
	switch {
	case err != nil:
		c.breach("a body without a valid Content-Type")
		return nil
	case kind == "application/json":
		c.raw = raw
	case kind == "multipart/form-data":
		c.readForm(multipart.NewReader(strings.NewReader(string(raw)), params["boundary"]))
	default:
		c.breach("Content-Type %s, want application/json or multipart/form-data", kind)
		return nil
	}
	if len(c.raw) == 0 {
		return nil
	}
	if c.body, err = decode(c.raw); err != nil {
		c.breach("the body is not JSON: %v", err)
	}
	return nil
}

var filePart = regexp.MustCompile(`^files\[(\d+)\]$`)

// readForm follows reference.mdx, "Uploading Files".
func (c *call) readForm(form *multipart.Reader) {
	seen := map[string]bool{}
	for {
		part, err := form.NextPart()
		if err == io.EOF {
			return
		}
		if err != nil {
			c.breach("the form is cut short: %v", err)
			return
		}
		data, err := io.ReadAll(part)
		if err != nil {
			c.breach("the form is cut short: %v", err)
			return
		}
		name := part.FormName()
		if seen[name] {
			c.breach("two form parts are named %q", name)
		}
		seen[name] = true
		if name == "payload_json" {
			c.raw = data
			continue
		}
		n := filePart.FindStringSubmatch(name)
		switch {
		case n == nil:
			c.breach("form part %q, want payload_json or files[n]", name)
		case part.FileName() == "":
			c.breach("form part %q has no filename", name)
		default:
			if len(data) > maxFile {
				c.breach("file %s is %d bytes, more than 10 MiB", part.FileName(), len(data))
			}
			c.files = append(c.files, upload{
				File:  File{Name: part.FileName(), Type: part.Header.Get("Content-Type"), Data: data},
				index: n[1],
			})
		}
	}
}

// flagged reads a boolean of the query (reference.mdx, "Boolean Query Strings").
func flagged(q url.Values, name string) bool {
	switch q.Get(name) {
	case "True", "true", "1":
		return true
	}
	return false
}

// idOf reads an id that may come as a string or a number.
func idOf(v any) string {
	if s, ok := v.(string); ok {
		return s
	}
	if n, ok := whole(v); ok {
		return fmt.Sprint(n)
	}
	return ""
}
