// Package describe reads the machine-readable description of the Bot API (every
// method and type with its fields, telegram-bot-api.json) and says where a call,
// an answer or an update departs from it.
//
// The description is data handed in from outside; it is not part of the module.
package describe

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// FileName is the description's name in the folder given to Load.
const FileName = "telegram-bot-api.json"

// Description is the loaded document. It is read-only after Load and may be used
// from several goroutines.
type Description struct {
	version string
	methods map[string]*method
	types   map[string]*object
}

type method struct {
	Name    string   `json:"name"`
	Returns []string `json:"returns"`
	Fields  []field  `json:"fields"`
}

type object struct {
	Name     string   `json:"name"`
	Fields   []field  `json:"fields"`
	Subtypes []string `json:"subtypes"`
}

type field struct {
	Name        string   `json:"name"`
	Types       []string `json:"types"`
	Required    bool     `json:"required"`
	Description string   `json:"description"`

	// constant is the only value the prose allows ("must be photo"), or "".
	constant string
}

// The members of a union are told apart by one field with a fixed value, which
// the document gives only in prose.
var fixedValue = regexp.MustCompile(`(?:must be|always) ["“*]?([a-z0-9_]+)`)

// Load reads FileName in a folder.
func Load(dir string) (*Description, error) {
	raw, err := os.ReadFile(filepath.Join(dir, FileName))
	if err != nil {
		return nil, err
	}
	return parse(raw)
}

func parse(raw []byte) (*Description, error) {
	var doc struct {
		Version string             `json:"version"`
		Methods map[string]*method `json:"methods"`
		Types   map[string]*object `json:"types"`
	}
	if err := json.Unmarshal(raw, &doc); err != nil {
		return nil, fmt.Errorf("%s: %w", FileName, err)
	}
	if len(doc.Methods) == 0 || len(doc.Types) == 0 {
		return nil, errors.New(FileName + ": no methods or no types in it")
	}
	d := &Description{version: doc.Version, methods: make(map[string]*method, len(doc.Methods)), types: doc.Types}
	for name, m := range doc.Methods {
		d.methods[strings.ToLower(name)] = m
	}
	for _, t := range d.types {
		for i := range t.Fields {
			t.Fields[i].fix()
		}
	}
	return d, nil
}

func (f *field) fix() {
	if f.Name != "type" && f.Name != "status" && f.Name != "source" {
		return
	}
	if m := fixedValue.FindStringSubmatch(f.Description); m != nil && m[1] != "one" {
		f.constant = m[1]
	}
}

// Version is the document's own name for itself, such as "Bot API 10.1".
func (d *Description) Version() string { return d.version }

// Has tells whether a method exists, whatever the case of its letters.
func (d *Description) Has(name string) bool { return d.methods[strings.ToLower(name)] != nil }
