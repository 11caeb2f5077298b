package data

// Matrix is a member that is a list of rows of numbers; not in CSV.
func Matrix[T any](name, words, unit string, of func(*T) [][]float64) Member[T] {
	item := numeric("", unit)
	row := schema{Type: types{"array"}, Items: &item}
	return Member[T]{name: name, schema: schema{Type: types{"array", "null"}, Description: words, Items: &row}, write: func(b []byte, t *T) []byte {
		if t == nil {
			return append(b, "null"...)
		}
		return appendList(b, of(t), func(b []byte, row *[]float64) []byte {
			return appendList(b, *row, func(b []byte, v *float64) []byte { return appendNumber(b, *v) })
		})
	}}
}
