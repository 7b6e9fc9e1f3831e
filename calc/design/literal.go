package design

import (
	"reflect"
	"sort"
	"strings"
	"time"
)

// literal is a value as TOML text on one line.
func literal(v any) string {
	switch x := v.(type) {
	case string:
		return quote(x)
	case []float64:
		return "[" + format(x) + "]"
	case []string:
		q := make([]string, len(x))
		for i := range x {
			q[i] = quote(x[i])
		}
		return "[" + strings.Join(q, ", ") + "]"
	case time.Time:
		return formatTime(x)
	case map[string]any:
		if len(x) == 0 {
			return "{}"
		}
		names := make([]string, 0, len(x))
		for k := range x {
			names = append(names, k)
		}
		sort.Strings(names)
		for i, k := range names {
			names[i] = formatKey(k) + " = " + literal(settingValue(x[k]))
		}
		return "{ " + strings.Join(names, ", ") + " }"
	}
	return format(v)
}

// longLiteral is a value as TOML text that may take several lines.
func longLiteral(v any, eol string) string {
	if s, ok := v.(string); ok && eol == "\n" && strings.Contains(s, "\n") {
		return quoteLines(s)
	}
	return literal(v)
}

// like writes a value in the manner of the text it replaces: a number that had
// a decimal point keeps one.
func like(v any, old, eol string, inline bool) string {
	s := literal(v)
	if !inline {
		s = longLiteral(v, eol)
	}
	if _, ok := v.(float64); ok && strings.Contains(old, ".") && !strings.ContainsAny(s, ".e") {
		s += ".0"
	}
	return s
}

// line is one key with its value.
type line struct {
	key   string
	value any
	leaf  *branch
}

// lines lists the keys of a struct that are worth writing: with full, all but
// what is empty; else only those that differ from the default.
func (b *branch) lines(v reflect.Value, full bool) []line {
	var out []line
	def := b.fresh()
	for _, k := range b.kids {
		if !k.leaf() {
			continue
		}
		f := k.of(v)
		x := valueOf(f)
		same := sameLeaf(f, k.of(def))
		switch {
		case x == nil:
		case same && !full && !k.key.Required:
		case same && x == "" && k.name != "title":
		case same && k.name == "hours_after_height" && b.byName["moment"].of(v).String() != MomentFermenting:
		default:
			out = append(out, line{k.name, x, k})
		}
	}
	return out
}
