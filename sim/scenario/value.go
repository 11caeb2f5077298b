package scenario

import (
	"regexp"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/unit"
)

// wrong is a value of the wrong type: what was found, what is wanted and, in a
// list, at which place from 0 (-1: it is the whole).
type wrong struct {
	found, want string
	at          int
}

// assign puts a TOML value where dst points, unless its type is wrong. Ranges
// are left to Check.
func (f *field) assign(dst, v any) *wrong {
	switch d := dst.(type) {
	case *float64:
		n, ok := document.Number(v)
		if !ok {
			return &wrong{"found " + document.Describe(v), f.wantNumber(v), -1}
		}
		*d = n
	case *int:
		n, ok := v.(int64)
		if !ok {
			return &wrong{"found " + document.Describe(v), f.wantWhole(v), -1}
		}
		*d = int(n)
	case *bool:
		is, ok := v.(bool)
		if !ok {
			return &wrong{"found " + document.Describe(v), f.want(), -1}
		}
		*d = is
	case *string:
		s, ok := v.(string)
		if !ok {
			return &wrong{"found " + document.Describe(v), f.want(), -1}
		}
		*d = s
	case *[]float64:
		return f.assignList(d, v)
	case *Range:
		return f.assignPair(d, v)
	case *[]Point:
		return f.assignPoints(d, v)
	}
	return nil
}

func (f *field) assignPoints(d *[]Point, v any) *wrong {
	items, ok := v.([]any)
	if !ok {
		return &wrong{"found " + document.Describe(v), f.want(), -1}
	}
	points := make([]Point, len(items))
	for i, item := range items {
		both, _ := item.([]any)
		if len(both) != 2 {
			return &wrong{"found " + document.Describe(item) + " for a pair", f.want(), i}
		}
		for k, to := range []*float64{&points[i].Turn, &points[i].DiameterMM} {
			if *to, ok = document.Number(both[k]); !ok {
				return &wrong{"found " + document.Describe(both[k]), f.want(), i}
			}
		}
	}
	*d = points
	return nil
}

func (f *field) assignList(d *[]float64, v any) *wrong {
	items, ok := v.([]any)
	if !ok {
		return &wrong{"found " + document.Describe(v), f.want(), -1}
	}
	numbers := make([]float64, len(items))
	for i, item := range items {
		if numbers[i], ok = document.Number(item); !ok {
			return &wrong{"found " + document.Describe(item), f.wantNumber(item), i}
		}
	}
	if first := document.CommaDecimals(items); first != "" && f.kind == list && f.unit != "" {
		return &wrong{"found " + first + ", which TOML takes for two numbers", "want a decimal point: " + strings.Replace(first, ",", ".", 1), -1}
	}
	*d = numbers
	return nil
}

func (f *field) assignPair(d *Range, v any) *wrong {
	var values []float64
	if w := f.assignList(&values, v); w != nil {
		return w
	}
	if len(values) != 2 {
		return &wrong{"found " + plural(len(values), "value"), f.want(), -1}
	}
	*d = Range{values[0], values[1]}
	return nil
}

// wantNumber points at the quotes when a number stands in them.
func (f *field) wantNumber(v any) string {
	if s, ok := v.(string); ok {
		if _, err := strconv.ParseFloat(s, 64); err == nil {
			return "want a number" + ofUnit(f.unit) + " without quotes"
		}
		if cure := document.Cure(s); cure != "" {
			return "want a number" + ofUnit(f.unit) + " without quotes and " + cure
		}
		if cure := f.typed(s); cure != "" {
			return "want " + cure
		}
	}
	return f.want()
}

// withUnit is a number, a fraction or both, and what stands behind it.
var withUnit = regexp.MustCompile(`^\s*([0-9]+(?:\.[0-9]+)?)?\s*(?:([0-9]+)\s*/\s*([1-9][0-9]*))?\s*([a-z%"]*)\s*$`)

// typed is how a number with its unit, a fraction or a percentage in a text is written;
// "" where it is none of these.
func (f *field) typed(s string) string {
	m := withUnit.FindStringSubmatch(strings.ToLower(s))
	if m == nil || m[1] == "" && m[2] == "" {
		return ""
	}
	var parts [3]float64
	for i := range parts {
		parts[i], _ = strconv.ParseFloat(m[i+1], 64)
	}
	v, key := parts[0], f.key
	if m[3] != "" {
		v += parts[1] / parts[2]
	}
	switch u := strings.NewReplacer(`"`, "in", "inch", "in").Replace(m[4]); {
	case u == "%" && f.unit == "":
		v /= 100
	case u == "":
		return "a number without quotes: " + rounded(v)
	default:
		stem := key[:strings.LastIndexByte(key, '_')+1]
		if key = stem + u; key != f.key && unit.Factor(key, f.key) == 0 {
			return ""
		}
	}
	return "a number without quotes: " + key + " = " + rounded(v)
}

func (f *field) wantWhole(v any) string {
	switch v := v.(type) {
	case string:
		if _, err := strconv.Atoi(v); err == nil {
			return "want a whole number without quotes"
		}
	case float64:
		if f.span.wholes(v) {
			return f.want() + " without a decimal point"
		}
	}
	return f.want()
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// toml writes a value that a field points at as TOML.
func toml(v any) string {
	switch v := v.(type) {
	case *float64:
		return document.Exact(*v)
	case float64:
		return document.Exact(v)
	case *int:
		return strconv.Itoa(*v)
	case int:
		return strconv.Itoa(v)
	case *bool:
		return strconv.FormatBool(*v)
	case bool:
		return strconv.FormatBool(v)
	case *string:
		return strconv.Quote(*v)
	case string:
		return strconv.Quote(v)
	case *Range:
		return v.toml()
	case Range:
		return v.toml()
	}
	return ""
}
