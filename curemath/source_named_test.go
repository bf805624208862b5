package curemath_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// namesSource are the ways a docstring says where a formula comes from: a document, or
// that there is none.
var namesSource = regexp.MustCompile(`(?i)\b(CFR|NCHFP|FSIS|USDA|Codex|Crank|handbook|atomic\s+weights|computed|exact|common\s+practice|from\s+memory|second-hand)\b`)

// lookups hand on rows of the embedded tables, each of which carries its own source, and
// work nothing out.
var lookups = map[string]bool{
	"LoadMixes": true, "Mixes.All": true, "Mixes.ByName": true, "Mixes.Use": true,
	"LoadPantry": true, "Pantry.Mixes": true, "Pantry.Read": true,
	"LoadRules": true, "Rules.All": true, "Rules.Default": true, "RuleSet.Limits": true, "CoolingRuleByKey": true,
}

// Whatever of this package gives an amount, a temperature, a time or a result made of
// them says in its docstring which formula that is and whose, or that it has none.
func TestEveryFormulaNamesItsSource(t *testing.T) {
	set := token.NewFileSet()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	structs := map[string]*ast.StructType{}
	var funcs []*ast.FuncDecl
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() && (d.Recv == nil || ast.IsExported(baseType(d.Recv.List[0].Type))) {
					funcs = append(funcs, d)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if ts, ok := s.(*ast.TypeSpec); ok {
						if st, ok := ts.Type.(*ast.StructType); ok {
							structs[ts.Name.Name] = st
						}
					}
				}
			}
		}
	}
	formulas, sourced := 0, map[string]bool{}
	for _, fn := range funcs {
		sourced[fn.Name.Name] = sourced[fn.Name.Name] || namesSource.MatchString(fn.Doc.Text())
	}
	for _, fn := range funcs {
		name := fn.Name.Name
		if fn.Recv != nil {
			name = baseType(fn.Recv.List[0].Type) + "." + name
		}
		if lookups[name] || fn.Type.Results == nil || !givesQuantity(fn.Type.Results, structs, map[string]bool{}) {
			continue
		}
		formulas++
		if !namesSource.MatchString(fn.Doc.Text()) && !refersTo(fn, sourced) {
			t.Errorf("%s: %s names no source: %q", set.Position(fn.Pos()), name, fn.Doc.Text())
		}
	}
	if formulas < 50 {
		t.Errorf("only %d formulas found", formulas)
	}
}

// refersTo reports whether a docstring names another function whose own names a source.
func refersTo(fn *ast.FuncDecl, sourced map[string]bool) bool {
	for _, w := range regexp.MustCompile(`\b[A-Z][A-Za-z0-9]+\b`).FindAllString(fn.Doc.Text(), -1) {
		if w != fn.Name.Name && sourced[w] {
			return true
		}
	}
	return false
}

// givesQuantity reports whether one of some fields is a quantity or a struct with one.
func givesQuantity(fields *ast.FieldList, structs map[string]*ast.StructType, seen map[string]bool) bool {
	for _, f := range fields.List {
		name := baseType(f.Type)
		switch name {
		case "Grams", "PPM", "Percent", "Celsius", "Fahrenheit", "Millimetres", "Millilitres", "Duration":
			return true
		}
		if st := structs[name]; st != nil && !seen[name] {
			seen[name] = true
			if givesQuantity(st.Fields, structs, seen) {
				return true
			}
		}
	}
	return false
}

// baseType is the name of a type without pointers, slices, maps and its package.
func baseType(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.StarExpr:
		return baseType(e.X)
	case *ast.ArrayType:
		return baseType(e.Elt)
	case *ast.MapType:
		return baseType(e.Value)
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}
