package ui

// Remarks are what is wrong with fields that share the line for it. When one of them is
// right again the line says what is wrong with another.
type Remarks struct {
	of   []any
	text []string
}

// Note takes what a field says of itself, nothing where it is right, and returns what the
// line says now: of the field that spoke last.
func (r *Remarks) Note(field any, text string) string {
	for i, f := range r.of {
		if f == field {
			r.of = append(r.of[:i], r.of[i+1:]...)
			r.text = append(r.text[:i], r.text[i+1:]...)
			break
		}
	}
	if text != "" {
		r.of, r.text = append(r.of, field), append(r.text, text)
	}
	if n := len(r.text); n > 0 {
		return r.text[n-1]
	}
	return ""
}
