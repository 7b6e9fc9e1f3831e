package file

import (
	"errors"
	"regexp"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"

	"skep/calc/design"
	"skep/calc/message"
)

// syntaxError is what a text of the decoder means, and what helps. The decoder
// speaks English and in the grammar's terms; a person who writes a design reads
// what to do, in their language. What the pattern catches fills the places.
type syntaxError struct {
	pattern *regexp.Regexp
	text    message.Message
}

// syntaxErrors are in the order in which they are tried. A test holds them against
// the public corpus of wrong files.
var syntaxErrors = sync.OnceValue(func() []syntaxError {
	is := func(pattern string, text message.Message) syntaxError {
		return syntaxError{regexp.MustCompile(`(?s)^(?:` + pattern + `)`), text}
	}
	return []syntaxError{
		is(`unexpected EOF; expected ['"]`, message.New("the quotes are not closed before the end of the file")),
		is(`strings cannot contain newlines`, message.New("the quotes are not closed on their line; a text of several lines stands between three quotes")),
		is(`unexpected ['"]{7,}`, message.New("there are too many quotes in a row")),
		is(`unexpected EOF; expected value|expected value but found '\\[nr]' instead`, message.New("the value behind the = is missing")),
		is(`expected value but found (.+) instead`, message.New("{found} is no value: text stands in quotes, a number begins with a digit, true and false stand alone")),
		is(`unexpected EOF; expected key separator '='`, message.New("an = is expected behind the key, and the file ends")),
		is(`expected '\.' or '=', but got (.+) instead`, message.New("an = is expected behind the key: here comes {found}")),
		is(`unexpected '='`, message.New("the key before the = is missing")),
		is(`unexpected '\.'`, message.New("a key can't begin with a dot, nor have two in a row")),
		is(`expected a top-level item to end with .+ but got (.+) instead`, message.New("something stands behind what the line says, {found}: give each key a line of its own, and begin a remark with #")),
		is(`expected end of table array name delimiter '\]', but got (.+) instead`, message.New("a heading that begins with [[ ends in ]]: here comes {found}")),
		is(`expected '\.' or '\]' to end table name, but got (.+) instead`, message.New("a heading that begins with [ ends in ]: here comes {found}")),
		is(`unexpected end of table name|unexpected table separator`, message.New("a name is missing in the heading between [ and ]")),
		is(`unexpected comma`, message.New("a comma stands where a value or a key is expected")),
		is(`expected a comma \(','\) or array terminator .+ but got (.+)`, message.New("the values of a list are separated by commas, and it ends in ]: here comes {found}")),
		is(`expected a comma or an inline table terminator .+ but got (.+) instead`, message.New("the keys of a table in braces are separated by commas, and it ends in a closing brace: here comes {found}")),
		is(`newlines not allowed within inline tables`, message.New("a table in braces stands on one line")),
		is(`expected (?:two|four|eight) hexadecimal digits after '(.+)', but got`, message.New("{escape} wants hexadecimal digits behind it; for a backslash write two, or put the text in single quotes")),
		is(`(?:invalid escape in string|invalid escape:|Escaped character) '(.+)'`, message.New("{escape} stands for no character; for a backslash write two, or put the text in single quotes")),
		is(`TOML files cannot contain control characters: '(.+)'`, message.New("the control character {code} can't stand here: take it out")),
		is(`invalid datetime: (.+)`, message.New("{value} is no date or time: a day is written 2026-06-20, a moment 2026-06-20T15:40:00Z")),
		is(`Invalid (?:integer|float) "(.+)": underscores`, message.New("{number}: an underscore stands between two digits only")),
		is(`Invalid (?:integer|float) "(.+)": cannot have leading zeroes`, message.New("{number} begins with a needless 0: leave it out")),
		is(`Invalid float "(.+)": '\.' must be followed`, message.New("{number}: a digit is missing behind the dot")),
		is(`floats must start with a digit`, message.New("a number begins with a digit: 0.5, not .5")),
		is(`(.+) is out of (?:range for|the safe)`, message.New("{number} is too large a number")),
		is(`(?:not an? \w+ number|invalid float|cannot use sign with non-decimal numbers): '(.+)'`, message.New("{number} is no number")),
		is(`Invalid float value: "(.+)"`, message.New("{number} is no number")),
		is(`expected a digit but got (.+)`, message.New("a digit is expected: here comes {found}")),
		is(`Key '(.+)' has already been defined`, message.New("{key} stands here a second time: take one of the two out")),
		is(`Key '(.+)' was already created`, message.New("{key} is something else further up: a value, a table and a list can't have one name")),
		is(`"(.+)" is not a table`, message.New("{key} is something else further up: a value, a table and a list can't have one name")),
		is(`files cannot contain NULL bytes`, message.New("the file holds bytes of 0, as a text in UTF-16 does: save it as UTF-8")),
		is(`unexpected EOF`, message.New("the file ends in the middle of a line")),
	}
})

// syntax keeps what the decoder refuses as a finding.
func (r *reader) syntax(err error) {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		r.report(design.Error, 0, "", "the file can't be read as a design: {detail}", oneLine(strings.TrimPrefix(err.Error(), "toml: ")))
		return
	}
	at := pe.Position.Start
	if strings.HasPrefix(r.src, bom) {
		at += len(bom)
	}
	_, col := position(r.src, r.starts, at)
	r.report(design.Error, at, pe.LastKey, "column {column}: {problem}", col, SyntaxProblem(pe))
}

// SyntaxProblem is what the decoder refuses, as a person reads it.
func SyntaxProblem(refused toml.ParseError) message.Message {
	text := refused.Message
	for _, e := range syntaxErrors() {
		caught := e.pattern.FindStringSubmatch(text)
		if caught == nil {
			continue
		}
		text := e.text
		for _, part := range caught[1:] {
			text.With = append(text.With, found(part))
		}
		return text
	}
	return message.New("the text is not as TOML has it: {detail}", oneLine(text))
}

// found is what stood where something else was expected.
func found(part string) message.Message {
	switch part {
	case "end of file", `'\x00'`: // how the decoder writes its end; a file with such a byte is refused as a whole
		return message.New("the end of the file")
	case `'\n'`, `'\r'`:
		return message.New("the end of the line")
	}
	return message.Plain(oneLine(part))
}

// oneLine keeps a text on one line and without a full stop.
func oneLine(s string) string {
	return strings.TrimSuffix(strings.Join(strings.Fields(s), " "), ".")
}
