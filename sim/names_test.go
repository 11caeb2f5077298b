package sim_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whoever uses the packages has nothing but go doc: every package that can be imported, and
// every exported name in it, is told of in a sentence, and every number of the physics has
// its unit or is said to have none.
func TestEveryNameIsTold(t *testing.T) {
	names := 0
	set, library := library(t)
	for dir, files := range library {
		told := teller{t: t, set: set, pure: pureRooms[dir], keyed: keyedRooms[dir] || strings.HasPrefix(dir, "sim/show/")}
		text := ""
		for _, f := range files {
			text += f.Doc.Text()
			for _, d := range f.Decls {
				told.decl(d)
			}
		}
		if name := files[0].Name.Name; !sentence(text, "Package "+name) {
			t.Errorf("%s: the package comment does not begin with Package %s", dir, name)
		}
		names += told.names
	}
	if names < 1000 {
		t.Errorf("only %d names found", names)
	}
}

// pureRooms are those of the physics, where every float64 needs its unit. In fusee/numeric
// units are those of the functions that it is given.
var pureRooms = map[string]bool{"fusee": true, "fusee/mainspring": true, "train": true, "escapement": true}

// keyedRooms are those whose fields end in their unit as their keys do, which the tables
// of keys tell of. Below sim/show fields are the parts of pictures and pages.
var keyedRooms = map[string]bool{"sim/scenario": true, "sim/bench/book": true, "sim/stock": true}

// library are the packages of the module that others can import, by their folder.
func library(t *testing.T) (*token.FileSet, map[string][]*ast.File) {
	t.Helper()
	all, set := map[string][]*ast.File{}, token.NewFileSet()
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		switch name := d.Name(); {
		case err != nil:
			return err
		case d.IsDir() && (name == "internal" || name == "testdata" || name == "cmd" || len(name) > 2 && name[0] == '.'):
			return filepath.SkipDir
		case filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		f, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		dir := filepath.ToSlash(filepath.Dir(path[len("../"):]))
		all[dir] = append(all[dir], f)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return set, all
}

// teller looks for what is not told in the declarations of a package.
type teller struct {
	t           *testing.T
	set         *token.FileSet
	pure, keyed bool
	names       int
}

func (l *teller) fault(at ast.Node, name, what, text string) {
	l.t.Errorf("%s: %s %s: %q", l.set.Position(at.Pos()), name, what, text)
}

func (l *teller) decl(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		l.function(d)
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() {
					l.named(s, s.Name.Name, s.Name.Name, first(s.Doc, d.Doc))
					l.members(s, first(s.Doc, d.Doc))
				}
			case *ast.ValueSpec:
				l.values(s, d.Doc)
			}
		}
	}
}

// function looks at a function, and a method of a type that is exported.
func (l *teller) function(d *ast.FuncDecl) {
	name := d.Name.Name
	if d.Recv != nil {
		of := typeName(d.Recv.List[0].Type)
		if !ast.IsExported(of) {
			return
		}
		name = of + "." + name
	}
	if !d.Name.IsExported() {
		return
	}
	text := d.Doc.Text()
	l.named(d, name, d.Name.Name, text)
	if l.pure && d.Type.Results != nil {
		for _, r := range d.Type.Results.List {
			if number(r.Type) && !unit.MatchString(flat(text)) {
				l.fault(d, name, "does not tell the unit of its result", text)
				break
			}
		}
	}
}

// values looks at constants and variables: each has a comment above or behind it, or that
// of its group.
func (l *teller) values(s *ast.ValueSpec, group *ast.CommentGroup) {
	for _, n := range s.Names {
		if n.IsExported() {
			l.names++
			if first(s.Doc, s.Comment, group) == "" {
				l.fault(n, n.Name, "is not told of", "")
			}
		}
	}
}

// members looks at the fields of a struct and the methods of an interface: each has a
// comment, is named in that of its type, or has the name of its own type.
func (l *teller) members(s *ast.TypeSpec, of string) {
	var list []*ast.Field
	switch kind := s.Type.(type) {
	case *ast.StructType:
		list = kind.Fields.List
	case *ast.InterfaceType:
		list = kind.Methods.List
	}
	for _, f := range list {
		for _, n := range f.Names {
			if !n.IsExported() {
				continue
			}
			l.names++
			name, text := s.Name.Name+"."+n.Name, flat(first(f.Doc, f.Comment))
			switch {
			case text == "" && !l.keyed && n.Name != typeName(f.Type) && !word(of, n.Name):
				l.fault(n, name, "is not told of", text)
			case l.pure && number(f.Type) && !unit.MatchString(text):
				l.fault(n, name, "does not tell its unit", text)
			}
		}
	}
}

// named wants a sentence that begins with the name.
func (l *teller) named(at ast.Node, name, begin, text string) {
	l.names++
	if !sentence(text, begin) {
		l.fault(at, name, "has no sentence that begins with its name", text)
	}
}

func sentence(text, begin string) bool {
	text = strings.TrimSpace(text)
	for _, article := range []string{"A ", "An ", "The "} {
		text = strings.TrimPrefix(text, article)
	}
	rest, ok := strings.CutPrefix(text, begin)
	return ok && len(strings.Fields(rest)) > 1 && strings.ContainsAny(rest, ".:")
}

// first is the text of the first comment that is there.
func first(comments ...*ast.CommentGroup) string {
	for _, c := range comments {
		if text := c.Text(); text != "" {
			return text
		}
	}
	return ""
}

func word(text, name string) bool {
	return regexp.MustCompile(`\b` + name + `\b`).MatchString(text)
}

func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

// typeName is the name of a type, or of what it points at or is a list of.
func typeName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return typeName(e.X)
	case *ast.IndexExpr:
		return typeName(e.X)
	case *ast.ArrayType:
		return typeName(e.Elt)
	case *ast.SelectorExpr:
		return e.Sel.Name
	case *ast.Ident:
		return e.Name
	}
	return ""
}

// number tells whether a type is a float64, several of them, or an interval of them.
func number(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name == "float64"
	case *ast.ArrayType:
		return number(e.Elt)
	case *ast.SelectorExpr:
		return e.Sel.Name == "Interval"
	}
	return false
}

// unit finds a unit where a text begins, in brackets, behind a comma or "in"; a word that
// is a unit of clocks; or a word that says that a number has none.
var unit = regexp.MustCompile(`(?:^|\(|, | in | or )(?:1/)?(?:m|mm|g|kg|N|J|W|Pa|s|h|Hz|rad|°)(?:[²³⁴]|·[a-zN]+[²³]?|/[a-zN]+[²³]?)*(?:$|[ ,;:.)])` +
	`|\b(?:turns?|coils|degrees|radians|seconds|metres|joules|unit of|pure number|share|ratio|coefficient|tangent|fraction|times)\b`)

// What counts as told: a unit that stands where one is looked for, and a sentence about
// the name.
func TestWhatCountsAsTold(t *testing.T) {
	for text, want := range map[string]bool{
		"m, of a vane": true, "N·m at the fusee": true, "kg·m², at the arbor": true, "Length is the length (m) of it.": true,
		"the mean in N·m": true, "θ, turns": true, "a share of it": true, "1/s, one over Interval": true, "": false,
		"given by the fusee": false, "the spring's mean": false, "it lasts": false, "Most of Mass": false,
	} {
		if unit.MatchString(text) != want {
			t.Errorf("unit in %q: %v", text, !want)
		}
	}
	for text, want := range map[string]bool{
		"Work is what it takes.": true, "A Work is what it takes.": true, "ErrWork: it takes too much.": false,
		"Work": false, "Work.": false, "The work that it takes.": false, "": false,
	} {
		if sentence(text, "Work") != want {
			t.Errorf("a sentence about Work in %q: %v", text, !want)
		}
	}
}
