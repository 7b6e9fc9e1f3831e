package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// tidy brings a text into the one shape that the rest reads: lower case, plain
// spaces, ASCII minus, one degree sign.
func tidy(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case unicode.IsSpace(r) || r == '\u202f' || r == '\u2009' || r == '\ufeff':
			b.WriteByte(' ')
		case r == '−' || r == '–' || r == '—' || r == '‐' || r == '‑' || r == '‒':
			b.WriteByte('-')
		case r == 'º' || r == '˚':
			b.WriteRune('°')
		case r == '’' || r == '′':
			b.WriteByte('\'')
		case !unicode.IsPrint(r): // is in a message one that can be seen
			b.WriteRune(unicode.ReplacementChar)
		default:
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// token is one number with the unit behind it, both as typed (tidied).
type token struct {
	digits string
	unit   string
}

// tokens splits "1 lb 3 oz" into its numbers and units; ok is false when
// something is neither.
func tokens(clean string) (sign float64, list []token, ok bool) {
	sign = 1
	rest := clean
	if rest != "" && (rest[0] == '+' || rest[0] == '-') {
		if rest[0] == '-' {
			sign = -1
		}
		rest = strings.TrimLeft(rest[1:], " ")
	}
	for rest != "" {
		n := numberLength(rest)
		if n == 0 || len(list) == 3 {
			return 0, nil, false
		}
		t := token{digits: rest[:n]}
		rest = rest[n:]
		end := strings.IndexFunc(rest, func(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' || r == '+' || r == '-' })
		if end < 0 {
			end = len(rest)
		}
		t.unit = strings.TrimSpace(rest[:end])
		rest = rest[end:]
		list = append(list, t)
	}
	return sign, list, len(list) > 0
}

// numberLength counts the leading bytes that form a number: digits with at
// most one point or comma, and at least one digit, and a power of ten behind them as a
// calculator writes it: "1e5".
func numberLength(s string) int {
	digits, marks, n := 0, 0, 0
loop:
	for n < len(s) {
		switch c := s[n]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '.' || c == ',':
			if marks++; marks > 1 {
				return 0
			}
		default:
			break loop
		}
		n++
	}
	if digits == 0 {
		return 0
	}
	return n + powerLength(s[n:])
}

// powerLength counts the bytes of "e5", "e-3"; none where an "e" begins a unit.
func powerLength(s string) int {
	body, found := strings.CutPrefix(s, "e")
	if !found {
		return 0
	}
	if body != "" && (body[0] == '+' || body[0] == '-') {
		body = body[1:]
	}
	rest := strings.TrimLeft(body, "0123456789")
	if rest == body {
		return 0
	}
	return len(s) - len(rest)
}

// number reads the digits of a token, point or comma.
func number(digits string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
	return v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}

// ambiguousComma tells whether "1,200" could as well be twelve hundred: one
// to three digits that don't begin with a nought, a comma, just three digits.
func ambiguousComma(digits string) bool {
	before, after, found := strings.Cut(digits, ",")
	return found && len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before[0] != '0'
}

// cutRange splits at the word or dash between two numbers. A dash at the very
// beginning, or right behind another, is a sign.
func cutRange(clean string) (first, second string, ok bool) {
	for _, word := range []string{" to ", "..", " and "} {
		if a, b, found := strings.Cut(clean, word); found {
			return strings.TrimSpace(a), strings.TrimSpace(b), a != "" && b != ""
		}
	}
	for i := 1; i < len(clean); i++ {
		if clean[i] == '-' && !inPower(clean, i) && strings.TrimSpace(clean[:i]) != "" && strings.ContainsAny(clean[:i], "0123456789") {
			a, b := strings.TrimSpace(clean[:i]), strings.TrimSpace(clean[i+1:])
			return a, b, a != "" && b != ""
		}
	}
	return "", "", false
}

// inPower tells whether the sign at i stands in a power of ten: "1e-3".
func inPower(s string, i int) bool {
	return i > 1 && powerLength(s[i-1:]) > 0 && strings.IndexByte("0123456789.,", s[i-2]) >= 0
}

func hasUnit(part string) bool { return unitOf(part) != "" }

// unitOf is the text behind the last digit.
func unitOf(part string) string {
	return part[strings.LastIndexAny(part, "0123456789")+1:]
}
