// Package document holds the JSON object of each command: its keys, in the order in
// which they are written, and what each says. Results of the engine and of finished
// batches come in, an object that marks itself with its schema goes out.
//
// What a document says is English, whatever the person's language, so that a program
// can rely on it.
//
// A document knows neither the command line nor the streams; what a key says stands
// in its "about" tag and nowhere else, and "skep help json" prints it from there
// ([Describe]).
package document

import (
	"bytes"
	"encoding/json"
	"fmt"

	"skep/calc"
	"skep/calc/message"
)

// Schema is the number of the form that every object is marked with: a change that
// could break a reader raises it.
const Schema = 1

// Encode writes one object, its schema first.
func Encode(v any) ([]byte, error) {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, message.Fault("the result has a number that JSON can't hold: %w", err)
	}
	rest := bytes.TrimPrefix(text.Bytes(), []byte("{"))
	separator := ","
	if bytes.Equal(bytes.TrimSpace(rest), []byte("}")) {
		separator = ""
	}
	return append(fmt.Appendf(nil, "{\n  \"schema\": %d%s", Schema, separator), rest...), nil
}

// Predicted is a prediction whose empty lists are arrays, not null.
func Predicted(p calc.Prediction) calc.Prediction {
	if p.Cautions == nil {
		p.Cautions = []message.Message{}
	}
	if p.Warnings == nil {
		p.Warnings = []message.Message{}
	}
	return p
}

// list is a list that is an array in JSON even where it is empty.
func list[T any](all []T) []T { return append([]T{}, all...) }
