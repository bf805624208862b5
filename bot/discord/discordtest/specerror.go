package discordtest

import (
	"errors"
	"slices"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/santhosh-tekuri/jsonschema/v6/kind"
	"golang.org/x/text/language"
	printer "golang.org/x/text/message"
)

// explain turns a validation error into one line a finding. Unions are most of
// the description; of their branches only those whose type field fits are told.
func explain(err error) error {
	var ve *jsonschema.ValidationError
	if !errors.As(err, &ve) {
		return err
	}
	p := printer.NewPrinter(language.English)
	var lines []string
	for _, leaf := range leaves(ve) {
		line := "/" + strings.Join(leaf.InstanceLocation, "/") + ": " + leaf.ErrorKind.LocalizedString(p)
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return errors.New(strings.Join(lines, "; "))
}

func leaves(e *jsonschema.ValidationError) []*jsonschema.ValidationError {
	if len(e.Causes) == 0 {
		return []*jsonschema.ValidationError{e}
	}
	causes := e.Causes
	switch e.ErrorKind.(type) {
	case *kind.OneOf, *kind.AnyOf:
		causes = meant(e)
		if len(causes) == 0 {
			return []*jsonschema.ValidationError{e}
		}
	}
	var out []*jsonschema.ValidationError
	for _, c := range causes {
		out = append(out, leaves(c)...)
	}
	return out
}

// meant leaves out the branches of a union that are for another type, or that
// wanted null.
func meant(union *jsonschema.ValidationError) []*jsonschema.ValidationError {
	var out []*jsonschema.ValidationError
	for _, branch := range union.Causes {
		if !otherType(branch, union.InstanceLocation) {
			out = append(out, branch)
		}
	}
	return out
}

func otherType(e *jsonschema.ValidationError, at []string) bool {
	if t, ok := e.ErrorKind.(*kind.Type); ok && slices.Equal(e.InstanceLocation, at) {
		return slices.Equal(t.Want, []string{"null"})
	}
	if _, ok := e.ErrorKind.(*kind.Enum); ok && slices.Equal(e.InstanceLocation, append(slices.Clone(at), "type")) {
		return true
	}
	return slices.ContainsFunc(e.Causes, func(c *jsonschema.ValidationError) bool {
		return len(c.InstanceLocation) <= len(at)+1 && otherType(c, at)
	})
}
