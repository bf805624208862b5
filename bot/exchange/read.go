package exchange

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
)

//go:embed recipe.schema.json
var schemaFile []byte

// Problem says why a file is no recipe, in a sentence for the person who sent it.
type Problem struct {
	Why string
}

func (p *Problem) Error() string { return p.Why }

// Reader reads files; it holds the schema compiled.
type Reader struct {
	schema *jsonschema.Schema
}

// NewReader compiles the schema. An error is a mistake in the file the program was
// built with.
func NewReader() (*Reader, error) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schemaFile))
	if err != nil {
		return nil, fmt.Errorf("recipe schema: %w", err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("recipe.schema.json", doc); err != nil {
		return nil, fmt.Errorf("recipe schema: %w", err)
	}
	schema, err := c.Compile("recipe.schema.json")
	if err != nil {
		return nil, fmt.Errorf("recipe schema: %w", err)
	}
	return &Reader{schema: schema}, nil
}

// Read reads a file. What the schema does not name is refused rather than passed
// over: it might be what makes the recipe safe. Text comes back on one line each and
// without control characters. Errors are *Problem.
func (rd *Reader) Read(file []byte) (Recipe, error) {
	var r Recipe
	if len(file) > MostBytes {
		return r, &Problem{Why: fmt.Sprintf("The file is longer than the %d KB a recipe may take.", MostBytes>>10)}
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	if err != nil {
		return r, &Problem{Why: "The file is not JSON."}
	}
	var mark struct {
		Format        string
		FormatVersion int `json:"format_version"`
	}
	if json.Unmarshal(file, &mark) != nil || mark.Format != Format || mark.FormatVersion != FormatVersion {
		return r, &Problem{Why: fmt.Sprintf("The file is not a recipe in the form I know (format “%s”, version %d).", Format, FormatVersion)}
	}
	if err := rd.schema.Validate(doc); err != nil {
		return r, &Problem{Why: schemaSays(err)}
	}
	d := json.NewDecoder(bytes.NewReader(file))
	d.DisallowUnknownFields()
	if err := d.Decode(&r); err != nil {
		return Recipe{}, &Problem{Why: "The file has a number or a name that I can't read."}
	}
	if r.Name = line(r.Name); r.Name == "" {
		return Recipe{}, &Problem{Why: "The recipe in the file has no name."}
	}
	r.Flavouring, r.Seasoning = line(r.Flavouring), line(r.Seasoning)
	credit := r.Credit[:0]
	for _, c := range r.Credit {
		if c = line(c); c != "" {
			credit = append(credit, c)
		}
	}
	r.Credit = credit
	if len(credit) == 0 {
		r.Credit = nil
	}
	return r, nil
}

// schemaSays names the first thing the schema objects to.
func schemaSays(err error) string {
	var v *jsonschema.ValidationError
	if !errors.As(err, &v) {
		return "The file is not a recipe of mine."
	}
	for len(v.Causes) > 0 {
		v = v.Causes[0]
	}
	at := strings.Join(v.InstanceLocation, " ")
	if at == "" {
		at = "the file"
	}
	said := v.ErrorKind.LocalizedString(message.NewPrinter(language.English))
	return fmt.Sprintf("The recipe in the file can't be read: %s: %s.", clip(at), clip(said))
}

func clip(s string) string {
	s = line(s)
	if utf8.RuneCountInString(s) > 120 {
		s = string([]rune(s)[:119]) + "…"
	}
	return s
}

// line puts a text on one line without control characters or quotes that would end
// a name.
func line(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), r == utf8.RuneError:
			return -1
		case strings.ContainsRune("\"“”„«»`", r):
			return '\''
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
