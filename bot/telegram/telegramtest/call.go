package telegramtest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"mime/multipart"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"larderhand/bot/telegram/telegramtest/internal/markup"
)

// Call is one method call the bot made, as a test reads it afterwards.
type Call struct {
	Method      string            // in the letters the bot used
	Params      map[string]string // nested values as JSON
	Uploads     []string          // names of the uploaded parts
	Code        int               // HTTP status of the answer; 0 while there is none
	Description string            // the error's text, "" for a success
}

// call is a Call under way.
type call struct {
	ctx     context.Context
	method  string // lower case
	params  map[string]string
	uploads map[string]*upload
	rec     *Call

	text    markup.Text // after parsing
	caption markup.Text
	media   *inputMedia
	markup  *replyMarkup
	refused *refusal // what the limits check already found
}

type upload struct {
	name string
	mime string
	data []byte
}

// largest body the server reads: a 50 MB document and its form.
const bodyLimit = 52 << 20

// readCall takes a call from an HTTP request: query string, form, multipart or
// JSON.
func readCall(r *http.Request, method string) (*call, error) {
	c := &call{ctx: r.Context(), method: strings.ToLower(method), params: map[string]string{}, uploads: map[string]*upload{}}
	if err := c.take(r.URL.Query()); err != nil {
		return nil, err
	}
	kind, _, _ := strings.Cut(r.Header.Get("Content-Type"), ";")
	var err error
	switch strings.TrimSpace(strings.ToLower(kind)) {
	case "application/json":
		err = c.readJSON(r.Body)
	case "multipart/form-data":
		err = c.readMultipart(r)
	case "application/x-www-form-urlencoded":
		if err = r.ParseForm(); err == nil {
			err = c.take(r.PostForm)
		}
	default:
		_, err = io.Copy(io.Discard, r.Body)
	}
	if err != nil {
		return nil, err
	}
	c.rec = &Call{Method: method, Params: maps.Clone(c.params), Uploads: slices.Sorted(maps.Keys(c.uploads))}
	return c, nil
}

func (c *call) take(form url.Values) error {
	for name, values := range form {
		if _, twice := c.params[name]; twice || len(values) > 1 {
			return fmt.Errorf("the parameter %q is given more than once", name)
		}
		c.params[name] = values[0]
	}
	return nil
}

func (c *call) readJSON(body io.Reader) error {
	dec := json.NewDecoder(body)
	var fields map[string]json.RawMessage
	if err := dec.Decode(&fields); err != nil {
		if errors.Is(err, io.EOF) {
			return nil
		}
		return fmt.Errorf("the body is not a JSON object: %w", err)
	}
	for name, raw := range fields {
		var text string
		if json.Unmarshal(raw, &text) != nil {
			text = string(raw)
		}
		c.params[name] = text
	}
	return nil
}

func (c *call) readMultipart(r *http.Request) error {
	if err := r.ParseMultipartForm(bodyLimit); err != nil {
		return fmt.Errorf("the multipart body cannot be read: %w", err)
	}
	if err := c.take(r.MultipartForm.Value); err != nil {
		return err
	}
	for name, parts := range r.MultipartForm.File {
		if len(parts) > 1 {
			return fmt.Errorf("the part %q is uploaded more than once", name)
		}
		u, err := readUpload(parts[0])
		if err != nil {
			return err
		}
		c.uploads[name] = u
	}
	return nil
}

func readUpload(part *multipart.FileHeader) (*upload, error) {
	f, err := part.Open()
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	return &upload{name: part.Filename, mime: part.Header.Get("Content-Type"), data: data}, nil
}

func (c *call) has(name string) bool { _, ok := c.params[name]; return ok }

// integer reads a parameter the way the server does: what is no number is 0.
func (c *call) integer(name string) int64 {
	n, _ := strconv.ParseInt(c.params[name], 10, 64)
	return n
}

func (c *call) flag(name string) bool { return c.params[name] == "true" }
