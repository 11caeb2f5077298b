package keyline

import (
	"strings"
	"testing"
)

func TestLineIndex(t *testing.T) {
	const text = `# comment with [brackets] and key = 1
top = "a # no comment" # 2
"quoted key" = 1
'literal.key'.inner = [ # 4
  1, "]", # 5
  [2, 3], # 6
  { a = 1, b.c = '}' }, ] # 7
long = """
not = "a key"
[neither]
""""" # 11, two quotes of it belong to the text
lit = '''
x = 1''' # 13
esc = "\"" # 14
[table] # 15
x.y = 1 # 16
[[list]]
[[list]] # 18
z = 2026-11-25T10:00:00Z # 19
[list.sub] # 20
k = nan # 21
[[list.deep]] # 22
[[list.deep]]
n = { m = [ { p = 1 },
 { p = 2 } ] } # 25
 [ spaced . "out" ] # 26
last = 1`
	for _, c := range []struct {
		spot string
		line int
	}{
		{"top", 2}, {`"quoted key"`, 3}, {`"literal.key"`, 4}, {`"literal.key".inner`, 4},
		{`"literal.key".inner.0`, 5}, {`"literal.key".inner.1`, 5}, {`"literal.key".inner.2.1`, 6},
		{`"literal.key".inner.3.a`, 7}, {`"literal.key".inner.3.b.c`, 7},
		{"long", 8}, {"lit", 12}, {"esc", 14}, {"table", 15}, {"table.x", 16}, {"table.x.y", 16},
		{"list", 17}, {"list.0", 17}, {"list.1", 18}, {"list.1.z", 19}, {"list.1.sub", 20}, {"list.1.sub.k", 21},
		{"list.1.deep.0", 22}, {"list.1.deep.1", 23}, {"list.1.deep.1.n.m.0.p", 24}, {"list.1.deep.1.n.m.1.p", 25},
		{"spaced.out.last", 27}, {"spaced.out", 26},
		{"list.1.deep.1.n.nowhere.at.all", 24}, {"nowhere", 1}, {"", 1}, {"not", 1}, {"x", 1},
	} {
		for name, text := range map[string]string{"LF": text, "CRLF": strings.ReplaceAll(text, "\n", "\r\n"), "BOM": "\ufeff" + text} {
			at, deep := Read(text)
			if got := at.Find(c.spot); got != c.line || deep != 0 {
				t.Errorf("%s: %s at line %d (deep %d), want %d", name, c.spot, got, deep, c.line)
			}
		}
	}
	if got := Index(nil).Find("a.b"); got != 0 {
		t.Error("a line without a file:", got)
	}
}

// TestDeep: what is nested too deep is told with its line, whatever is in it.
func TestDeep(t *testing.T) {
	open, shut := strings.Repeat("[", MaxNesting+1), strings.Repeat("]", MaxNesting+1)
	for _, c := range []struct {
		text    string
		deep, c int // lines
	}{
		{"a = 1\nb = " + open + "1, \"]\", # ]\n{ c = 2 }" + shut + "\nc = 1", 2, 4},
		{"b = " + open[1:] + "\n1 " + shut[1:] + "\nc = 1", 0, 3},
		{strings.Repeat("a.", MaxNesting) + "a = 1", 1, 0},
		{strings.Repeat("a.", MaxNesting-1) + "a = 1", 0, 0},
	} {
		at, deep := Read(c.text)
		if deep != c.deep || at["c"] != c.c {
			t.Errorf("%q: deep at line %d, c at %d, want %d, %d", c.text, deep, at["c"], c.deep, c.c)
		}
	}
}

// TestInvalidTexts: the index makes what it can of texts that are not TOML.
func TestInvalidTexts(t *testing.T) {
	for text, want := range map[string]int{
		"a\nb = 1": 2, "= 3\nb = 1": 2, "]\nb = 1": 2, "a = [1, }\n]\nb = 1": 3, "a = \"no end\nb = 1": 2, "a = { ] }\nb = 1": 2,
		"a = '''no end\nb = 1": 0, "\"\n b = 1": 2, "a = [[[[": 0, "\"\\": 0, "[": 0, "[[": 0,
	} {
		if at, _ := Read(text); at["b"] != want {
			t.Errorf("%q: b at line %d, want %d", text, at["b"], want)
		}
	}
	if got := unquote(`"`); got != `"` {
		t.Error(got)
	}
}
