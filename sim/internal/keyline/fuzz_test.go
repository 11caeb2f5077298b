package keyline

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"

	parser "github.com/BurntSushi/toml"
)

func seeds(f *testing.F) []string {
	texts := []string{"", "title = 1", "[[train]]\n[train.mesh]\n", "a.b = [ { c = 1 }, [2] ]", "x = \"\"\"\n\\\"\"\"\"\"", "'a' . \"\\u0041\" = 1_0e3", `'a' . "\e0041" = 1_0e3`, `"\x41\\e\xe9\\" = 1`,
		"train = [ { name = 'a', kind = 'going', mesh = [ 3 ] } ]", "[[train]]\nfusee.diameters_mm = [1, nan, 'x']\n"}
	files, err := filepath.Glob("../../scenario/testdata/*.toml")
	if err != nil || len(files) == 0 {
		f.Fatal("no files in testdata:", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	return texts
}

// FuzzRead: the index knows every key of a text that is valid, and no text
// makes it panic.
func FuzzRead(f *testing.F) {
	for _, text := range seeds(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		at, deep := Read(text)
		var tree map[string]any
		if deep > 0 || len(text) > 1<<16 {
			return
		}
		if _, err := parser.Decode(text, &tree); err == nil {
			wantIndexed(t, at, "", tree)
		}
	})
}

func wantIndexed(t *testing.T, at Index, spot string, v any) {
	if _, ok := at[spot]; !ok && spot != "" {
		t.Fatalf("%s is not in the index %v", spot, at)
	}
	switch v := v.(type) {
	case map[string]any:
		for k, item := range v {
			wantIndexed(t, at, Join(spot, k), item)
		}
	case []map[string]any:
		for i, item := range v {
			wantIndexed(t, at, spot+"."+strconv.Itoa(i), item)
		}
	case []any:
		for i, item := range v {
			wantIndexed(t, at, spot+"."+strconv.Itoa(i), item)
		}
	}
}
