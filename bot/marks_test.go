package bot_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// marked matches what says where a figure is from, or that it is nobody's but ours.
var marked = regexp.MustCompile(`(?i)no source|our own choice|from memory|second-hand|NCHFP|FSIS|USDA|cold storage chart`)

// Every span of time, temperature and weight that the code goes by says where it is from,
// beside it or over the list it is in.
func TestFiguresSayWhereTheyAreFrom(t *testing.T) {
	var files []string
	for _, dir := range []string{".", "course"} {
		of, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, of...)
	}
	seen := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, decl := range file.Decls {
			list, ok := decl.(*ast.GenDecl)
			if !ok || list.Tok != token.CONST {
				continue
			}
			for _, spec := range list.Specs {
				v := spec.(*ast.ValueSpec)
				if !measured(v) {
					continue
				}
				seen++
				said := strings.Join(strings.Fields(list.Doc.Text()+" "+v.Doc.Text()+" "+v.Comment.Text()), " ")
				if !marked.MatchString(said) {
					t.Errorf("%s: %s does not say where it is from: %q", set.Position(v.Pos()), v.Names[0].Name, said)
				}
			}
		}
	}
	if seen < 40 {
		t.Errorf("only %d figures were looked at", seen)
	}
}

// measured says whether a constant is a quantity with a unit: a time, or one of the
// sums' own types.
func measured(v *ast.ValueSpec) bool {
	found := false
	look := func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if pkg, ok := sel.X.(*ast.Ident); ok && (pkg.Name == "time" && sel.Sel.Name != "DateOnly" || pkg.Name == "curemath") {
				found = true
			}
		}
		return true
	}
	if v.Type != nil {
		ast.Inspect(v.Type, look)
	}
	for _, x := range v.Values {
		ast.Inspect(x, look)
	}
	return found
}
