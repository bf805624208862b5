package discordtest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// specFile is the platform's own OpenAPI 3.1 description, whose schemas are
// JSON Schema 2020-12 as they stand.
const (
	specFile = "discord-openapi.json"
	specURL  = "https://discord.invalid/openapi.json"
)

// spec is an opened description. Schemas are compiled when first wanted.
type spec struct {
	doc obj

	mu       sync.Mutex
	compiler *jsonschema.Compiler
	schemas  map[string]*jsonschema.Schema
	total    checkCount
}

// opened keeps each description once a process, since reading and compiling it
// takes longer than most tests: a cache, with nothing in it that a test could
// change for another.
var opened struct {
	sync.Mutex
	specs map[string]*spec
}

func openSpec(dir string) (*spec, error) {
	file := filepath.Join(dir, specFile)
	opened.Lock()
	defer opened.Unlock()
	if sp := opened.specs[file]; sp != nil {
		return sp, nil
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	doc, err := decode(raw)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	sp := &spec{doc: object(doc), compiler: jsonschema.NewCompiler(), schemas: map[string]*jsonschema.Schema{}}
	sp.compiler.DefaultDraft(jsonschema.Draft2020)
	sp.compiler.AssertFormat()
	if err := sp.compiler.AddResource(specURL, doc); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if opened.specs == nil {
		opened.specs = map[string]*spec{}
	}
	opened.specs[file] = sp
	return sp, nil
}

// at walks down the document; nil when there is nothing.
func (sp *spec) at(keys ...string) obj {
	o := sp.doc
	for _, k := range keys {
		o = object(o[k])
	}
	return o
}

// schema compiles the schema at a path of keys.
func (sp *spec) schema(keys ...string) (*jsonschema.Schema, error) {
	var ptr strings.Builder
	for _, k := range keys {
		k = strings.NewReplacer("~", "~0", "/", "~1").Replace(k)
		ptr.WriteString("/" + strings.NewReplacer("{", "%7B", "}", "%7D").Replace(k))
	}
	loc := specURL + "#" + ptr.String()
	sp.mu.Lock()
	defer sp.mu.Unlock()
	if s := sp.schemas[loc]; s != nil {
		return s, nil
	}
	s, err := sp.compiler.Compile(loc)
	if err == nil {
		sp.schemas[loc] = s
	}
	return s, err
}

// hold validates a value against the schema at a path of keys.
func (sp *spec) hold(v any, keys ...string) error {
	s, err := sp.schema(keys...)
	if err != nil {
		return err
	}
	return explain(s.Validate(v))
}

// component validates a value against a named schema.
func (sp *spec) component(v any, name string) error {
	return sp.hold(v, "components", "schemas", name)
}
