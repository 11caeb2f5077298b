package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"math"
)

// finder walks a file and collects the faults that can be put into it.
type finder struct {
	*source
	file  string
	found []*mutant
}

// mutants are the faults that can be put into a package; some do not build.
func (s *source) mutants() []*mutant {
	var all []*mutant
	for _, file := range s.Syntax {
		if ast.IsGenerated(file) { // whoever makes it is tested
			continue
		}
		f := &finder{source: s, file: s.Fset.Position(file.Package).Filename}
		ast.Inspect(file, f.visit)
		all = append(all, f.found...)
	}
	return all
}

var (
	boundary = map[token.Token]token.Token{token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR}
	negation = map[token.Token]token.Token{
		token.LSS: token.GEQ, token.GEQ: token.LSS, token.GTR: token.LEQ, token.LEQ: token.GTR,
		token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	}
	arithmetic = map[token.Token]token.Token{
		token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL, token.REM: token.MUL,
		token.AND: token.OR, token.OR: token.AND, token.SHL: token.SHR, token.SHR: token.SHL,
		token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
		token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
	}
)

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		f.operator("boundary", boundary, n.Op, n.OpPos)
		f.operator("negation", negation, n.Op, n.OpPos)
		f.operator("arithmetic", arithmetic, n.Op, n.OpPos)
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			f.replace("negation", n.OpPos, n.OpPos+1, "")
		}
	case *ast.IncDecStmt:
		f.operator("step", map[token.Token]token.Token{token.INC: token.DEC, token.DEC: token.INC}, n.Tok, n.TokPos)
	case *ast.BasicLit:
		f.literal(n)
	case *ast.IfStmt:
		f.condition(n.Cond)
	case *ast.ReturnStmt:
		return f.returned(n.Results)
	case *ast.AssignStmt:
		f.operator("arithmetic", arithmetic, n.Tok, n.TokPos)
		f.neighbours(n.Rhs)
	case *ast.BlockStmt:
		f.statements(n.List)
	case *ast.CaseClause:
		f.statements(n.Body)
	case *ast.CallExpr:
		return f.call(n)
	case *ast.CompositeLit:
		f.elements(n.Elts)
	}
	return true
}

func (f *finder) replace(kind string, from, to token.Pos, text string) {
	p, q := f.Fset.Position(from), f.Fset.Position(to)
	m := &mutant{kind: kind, file: f.file, from: p.Offset, to: q.Offset, text: text, line: p.Line, column: p.Column}
	m.was = string(f.text[f.file][m.from:m.to])
	if m.was != text {
		f.found = append(f.found, m)
	}
}

func (f *finder) textOf(n ast.Node) string {
	return string(f.text[f.file][f.Fset.Position(n.Pos()).Offset:f.Fset.Position(n.End()).Offset])
}

func (f *finder) operator(kind string, swap map[token.Token]token.Token, op token.Token, at token.Pos) {
	if other, ok := swap[op]; ok {
		f.replace(kind, at, at+token.Pos(len(op.String())), other.String())
	}
}

// literal moves a number. Those up to 1e-6 are bounds of rounding, whose exact
// size decides nothing.
func (f *finder) literal(n *ast.BasicLit) {
	value := constant.MakeFromLiteral(n.Value, n.Kind, 0)
	size, _ := constant.Float64Val(constant.ToFloat(value))
	switch {
	case n.Kind == token.INT || n.Kind == token.FLOAT && size == 0:
		f.replace("number", n.Pos(), n.End(), "("+n.Value+" + 1)")
	case n.Kind == token.FLOAT && math.Abs(size) > 1e-6:
		f.replace("number", n.Pos(), n.End(), "("+n.Value+" * 1.1)")
	}
}

// condition negates one that has no operator of its own.
func (f *finder) condition(e ast.Expr) {
	switch ast.Unparen(e).(type) {
	case *ast.BinaryExpr, *ast.UnaryExpr:
	default:
		f.replace("negation", e.Pos(), e.End(), "!("+f.textOf(e)+")")
	}
}

// returned changes what is returned, but not the constant beside an error, which
// nobody uses.
func (f *finder) returned(list []ast.Expr) bool {
	fails := false
	if n := len(list); n > 1 {
		last := f.TypesInfo.Types[list[n-1]]
		fails = !last.IsNil() && types.Identical(last.Type, types.Universe.Lookup("error").Type())
	}
	for _, e := range list {
		v := f.TypesInfo.Types[e]
		if fails && (v.Value != nil || v.IsNil()) {
			continue
		}
		f.result(e)
		ast.Inspect(e, f.visit)
	}
	f.neighbours(list)
	return false
}

// result returns nothing of its type in place of what is returned.
func (f *finder) result(e ast.Expr) {
	t := f.TypesInfo.TypeOf(e)
	if _, several := t.(*types.Tuple); several || t == nil {
		return
	}
	text := ""
	switch u := t.Underlying().(type) {
	case *types.Basic:
		switch {
		case u.Info()&types.IsBoolean != 0:
			text = "!(" + f.textOf(e) + ")"
		case u.Info()&types.IsNumeric != 0:
			text = "0"
		case u.Info()&types.IsString != 0:
			text = `""`
		default:
			return
		}
	case *types.Struct, *types.Array:
		text = types.TypeString(t, func(p *types.Package) string {
			if p == f.Types {
				return ""
			}
			return p.Name()
		}) + "{}"
	default:
		text = "nil"
	}
	f.replace("result", e.Pos(), e.End(), text)
}

// statements leaves out one at a time.
func (f *finder) statements(list []ast.Stmt) {
	for _, s := range list {
		switch s := s.(type) {
		case *ast.ExprStmt, *ast.BranchStmt, *ast.SendStmt:
		case *ast.AssignStmt:
			if s.Tok == token.DEFINE {
				continue
			}
		default:
			continue
		}
		f.replace("left out", s.Pos(), s.End(), "if false { "+f.textOf(s)+" }")
	}
}

// call swaps neighbouring arguments. Room set aside by make is no result.
func (f *finder) call(n *ast.CallExpr) bool {
	name := types.ExprString(n.Fun)
	switch name {
	case "min", "max", "math.Min", "math.Max", "math.Hypot": // the same either way
		return true
	case "make":
		room := 2
		if _, slice := f.TypesInfo.TypeOf(n).Underlying().(*types.Slice); !slice {
			room = 1
		}
		for _, a := range n.Args[:min(room, len(n.Args))] {
			ast.Inspect(a, f.visit)
		}
		return false
	}
	f.neighbours(n.Args)
	return true
}

// elements swaps neighbours in a composite literal; of keyed ones the values.
func (f *finder) elements(list []ast.Expr) {
	values := make([]ast.Expr, len(list))
	for i, e := range list {
		values[i] = e
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			values[i] = kv.Value
		}
	}
	f.neighbours(values)
}

// neighbours swaps two that stand beside each other and are of one type.
func (f *finder) neighbours(list []ast.Expr) {
	for i := 1; i < len(list); i++ {
		a, b := list[i-1], list[i]
		ta, tb := f.TypesInfo.TypeOf(a), f.TypesInfo.TypeOf(b)
		if ta == nil || tb == nil || !types.Identical(ta, tb) || f.textOf(a) == f.textOf(b) {
			continue
		}
		between := string(f.text[f.file][f.Fset.Position(a.End()).Offset:f.Fset.Position(b.Pos()).Offset])
		f.replace("swap", a.Pos(), b.End(), fmt.Sprint(f.textOf(b), between, f.textOf(a)))
	}
}
