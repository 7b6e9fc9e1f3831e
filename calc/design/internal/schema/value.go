package schema

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"skep/calc/message"
)

// Day is a day of the calendar as TOML writes it, 2026-06-20; empty for none.
type Day string

// Assign puts a checked value of the key's kind into a field; nil empties it.
func Assign(f reflect.Value, v any) {
	switch {
	case v == nil:
		f.SetZero()
	case f.Kind() == reflect.Pointer:
		x := v.(float64)
		f.Set(reflect.ValueOf(&x))
	default:
		f.Set(reflect.ValueOf(v))
	}
}

// ValueOf reads a leaf: float64, int, string, bool, []float64, []string,
// time.Time, [Day] or map[string]any; nil when it is absent or empty.
func ValueOf(f reflect.Value) any {
	switch f.Kind() {
	case reflect.Pointer:
		if f.IsNil() {
			return nil
		}
		return f.Elem().Interface()
	case reflect.String:
		if d, ok := f.Interface().(Day); ok && d == "" {
			return nil
		}
	case reflect.Slice, reflect.Map:
		if f.Len() == 0 {
			return nil
		}
	case reflect.Struct:
		if f.Interface().(time.Time).IsZero() {
			return nil
		}
	}
	return f.Interface()
}

// ProblemOf is [Key.Problem] of a leaf; of one that is absent or empty, nothing.
func (k *Key) ProblemOf(path string, f reflect.Value) message.Message {
	if f.Kind() == reflect.Float64 { // most are, and this takes no memory
		return NumberProblem(path, f.Float(), k.Unit, k.Min, k.Max)
	}
	if f.Kind() == reflect.String && f.Type() != reflect.TypeFor[Day]() {
		return k.problemOfText(path, f.String())
	}
	if x := ValueOf(f); x != nil {
		return k.Problem(path, x)
	}
	return message.Message{}
}

func (k *Key) problemOfText(path, text string) message.Message {
	switch {
	case k.Kind != Word:
		return TextProblem(path, text, int(k.Max))
	case text == "" && k.Untold:
		return message.Message{}
	}
	return wordProblem(path, text, k.Words)
}

// Problem says what is wrong with a value of a key; empty: nothing. It is the one
// place where ranges and words are judged.
func (k *Key) Problem(path string, v any) message.Message {
	switch x := v.(type) {
	case float64:
		return NumberProblem(path, x, k.Unit, k.Min, k.Max)
	case int:
		return NumberProblem(path, float64(x), k.Unit, k.Min, k.Max)
	case []float64:
		for _, n := range x {
			if p := NumberProblem(path, n, k.Unit, k.Min, k.Max); !p.Empty() {
				return p
			}
		}
		if len(x) != 6 { // the only list of numbers: five sieves and the pan
			return message.New("{key} has {count} numbers, expected 6: on 1.27, 1.0, 0.6, 0.25, 0.15 mm, and through", path, len(x))
		}
	case string:
		return k.problemOfText(path, x)
	case []string:
		for _, w := range x {
			if p := wordProblem(path, w, k.Words); !p.Empty() {
				return p
			}
		}
	case time.Time:
		if y := x.Year(); y < 1900 || y > 9998 {
			return message.New("{key} = {value} is outside the years 1900 to 9998", path, FormatTime(x))
		}
	case Day:
		if at, err := time.Parse(time.DateOnly, string(x)); err != nil || at.Year() < 1900 || at.Year() > 9998 {
			return message.New("{key} = {value} is no day of the years 1900 to 9998, expected one such as 2026-06-20", path, ShortQuote(string(x)))
		}
	}
	return message.Message{}
}

func NumberProblem(path string, x float64, unit string, min, max float64) message.Message {
	finite := !math.IsNaN(x) && !math.IsInf(x, 0)
	if finite && (x >= min || sameNumber(x, min)) && (x <= max || sameNumber(x, max)) {
		return message.Message{}
	}
	if !finite {
		return message.New("{key} = {value} is not a finite number, expected {range}", path, FormatNumber(x), numberRange(min, max, unit))
	}
	if min == max {
		return message.New("{key} = {value}, expected {wanted}", path, FormatNumber(x), numberRange(min, max, unit))
	}
	return message.New("{key} = {value} is outside {range}", path, FormatNumber(x), numberRange(min, max, unit))
}

func wordProblem(path, w string, words []string) message.Message {
	for _, ok := range words {
		if w == ok {
			return message.Message{}
		}
	}
	return message.New("{key} = {value} is not known, expected {words}", path, ShortQuote(w), OneOf(words))
}

func TextProblem(path, s string, limit int) message.Message {
	switch {
	case !utf8.ValidString(s):
		return message.New("{key} holds bytes that are not UTF-8 text", path)
	case limit > 0 && len(s) > limit:
		return message.New("{key} is {count} bytes long, at most {most} can be kept", path, len(s), limit)
	}
	return message.Message{}
}

// ShortQuote quotes text for a message without letting it fill the screen.
func ShortQuote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return Quote(s)
}

// Parse reads a value as a person types it on a command line.
func (k *Key) Parse(path, s string) (any, error) {
	wrong := func() error {
		return message.NewError("{key} = {value} is not what is expected: {wanted}", path, ShortQuote(s), k.Wanted())
	}
	t := strings.TrimSpace(s)
	var v any
	switch k.Kind {
	case Number:
		if k.Optional && (t == "" || t == "none") {
			return nil, nil
		}
		x, ok := parseNumber(t)
		if !ok {
			return nil, wrong()
		}
		v = x
	case Whole:
		n, err := strconv.Atoi(t)
		if err != nil {
			return nil, wrong()
		}
		v = n
	case Text:
		v = s
	case Word:
		v = Unquoted(t)
	case Switch:
		switch t {
		case "true":
			v = true
		case "false":
			v = false
		default:
			return nil, wrong()
		}
	case Numbers:
		var xs []float64
		for _, p := range splitList(t) {
			x, ok := parseNumber(p)
			if !ok {
				return nil, wrong()
			}
			xs = append(xs, x)
		}
		if xs == nil {
			return nil, nil
		}
		v = xs
	case Words:
		ws := splitList(t)
		if ws == nil {
			return nil, nil
		}
		v = ws
	case Time:
		if t == "" {
			return nil, nil
		}
		at, err := time.Parse(time.RFC3339Nano, t)
		if err != nil {
			return nil, wrong()
		}
		v = at
	case Date:
		if t == "" {
			return nil, nil
		}
		v = Day(t)
	default:
		return nil, message.NewError("{key} is a table; set one of its keys, such as {key}.mash.rest.0.temperature_c", path)
	}
	if err := k.Problem(path, v).Err(); err != nil {
		return nil, err
	}
	return v, nil
}

// parseNumber reads a plain decimal number; words such as nan and inf are read
// too, for the range check to refuse with the range.
func parseNumber(s string) (float64, bool) {
	if len(s) > 64 || strings.ContainsAny(s, "xXpP_") {
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil && !math.IsInf(x, 0) {
		return 0, false
	}
	return x, true
}

// splitList reads "a, b" and the TOML form ["a", "b"].
func splitList(s string) []string {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(s, "["), "]"))
	if s == "" {
		return nil
	}
	parts := strings.Split(s, ",")
	for i, p := range parts {
		parts[i] = Unquoted(strings.TrimSpace(p))
	}
	return parts
}

func Unquoted(s string) string {
	if len(s) >= 2 && (s[0] == '"' || s[0] == '\'') && s[len(s)-1] == s[0] {
		return s[1 : len(s)-1]
	}
	return s
}

// Format is the value as [Design.Get] gives it and [Key.parse] reads it.
func Format(v any) string {
	switch x := v.(type) {
	case nil:
		return ""
	case float64:
		return FormatNumber(x)
	case string:
		return x
	case []float64:
		s := make([]string, len(x))
		for i := range x {
			s[i] = FormatNumber(x[i])
		}
		return strings.Join(s, ", ")
	case []string:
		return strings.Join(x, ", ")
	case time.Time:
		return FormatTime(x)
	}
	return fmt.Sprint(v)
}
