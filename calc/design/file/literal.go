package file

import (
	"reflect"
	"skep/calc/design"
	"sort"
	"strings"
	"time"

	"skep/calc/design/internal/schema"
)

// literal is a value as TOML text on one line.
func literal(v any) string {
	switch x := v.(type) {
	case string:
		return schema.Quote(x)
	case []float64:
		return "[" + schema.Format(x) + "]"
	case []string:
		q := make([]string, len(x))
		for i := range x {
			q[i] = schema.Quote(x[i])
		}
		return "[" + strings.Join(q, ", ") + "]"
	case time.Time:
		return schema.FormatTime(x)
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
			names[i] = schema.FormatKey(k) + " = " + literal(schema.SettingValue(x[k]))
		}
		return "{ " + strings.Join(names, ", ") + " }"
	}
	return schema.Format(v)
}

// longLiteral is a value as TOML text that may take several lines.
func longLiteral(v any, eol string) string {
	if s, ok := v.(string); ok && eol == "\n" && strings.Contains(s, "\n") {
		return schema.QuoteLines(s)
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
	leaf  *schema.Branch
}

// lines lists the keys of a struct that are worth writing: with full, all but
// what is empty; else only those that differ from the default.
func lines(b *schema.Branch, v reflect.Value, full bool) []line {
	var out []line
	def := b.Fresh()
	for _, k := range b.Kids {
		if !k.Leaf() {
			continue
		}
		f := k.Of(v)
		x := schema.ValueOf(f)
		same := schema.SameLeaf(f, k.Of(def))
		switch {
		case x == nil:
		case same && !full && !k.Key.Required:
		case same && (k.Key.Untold || x == "" && k.Name != "title"):
		case same && k.Name == "hours_after_height" && b.ByName["moment"].Of(v).String() != design.MomentFermenting:
		default:
			out = append(out, line{k.Name, x, k})
		}
	}
	return out
}
