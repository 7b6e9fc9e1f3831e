package explain

import (
	"reflect"
	"strings"

	"skep/calc"
	"skep/calc/message"
	"skep/calc/taste"
)

// value is one number or text of a prediction.
type value struct {
	band calc.Band
	sure bool
	text message.Message
	word bool // text, not a number
}

// values are all of a prediction by key. Names of several numbers under one
// key (wort, volumes, the honey window) are joined by a dot.
func values(p *calc.Prediction) map[string]value {
	out := map[string]value{}
	add(out, "", reflect.ValueOf(*p))
	return out
}

// lines are some messages, one a line.
func lines(list []message.Message) message.Message {
	if len(list) == 0 {
		return message.Message{}
	}
	out := list[0]
	for _, m := range list[1:] {
		out = message.New("{lines}\n{line}", out, m)
	}
	return out
}

// windowParts are the names of the two numbers of the honey window.
var windowParts = []string{"opens", "closes"}

func add(out map[string]value, path string, v reflect.Value) {
	switch x := v.Interface().(type) {
	case calc.Band:
		out[path] = value{band: x}
		return
	case float64:
		out[path] = value{band: calc.Band{Low: x, Mid: x, High: x}, sure: true}
		return
	case string:
		out[path] = value{text: message.Plain(x), word: true}
		switch {
		case path == "honey_character_word":
			out[path] = value{text: taste.CharacterWordOf(x), word: true}
		case strings.HasSuffix(path, "_word"):
			out[path] = value{text: taste.WordOf(x), word: true}
		}
		return
	case []message.Message:
		out[path] = value{text: lines(x), word: true}
		return
	}
	switch v.Kind() {
	case reflect.Array:
		for i := range v.Len() {
			add(out, path+"."+windowParts[i], v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			if name == "-" || name == "" {
				continue
			}
			if path != "" {
				name = path + "." + name
			}
			add(out, name, v.Field(i))
		}
	}
}

// Keys are all keys that can be opened, in the order of a prediction; a key of
// several numbers stands before its parts.
func Keys() []string {
	var keys []string
	t := reflect.TypeFor[calc.Prediction]()
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if name == "-" || name == "" {
			continue
		}
		keys = append(keys, name)
		keys = append(keys, parts(name, t.Field(i).Type)...)
	}
	return keys
}

// parts are the keys under one of several numbers.
func parts(key string, t reflect.Type) []string {
	if t == reflect.TypeFor[calc.Band]() {
		return nil
	}
	var keys []string
	switch t.Kind() {
	case reflect.Array:
		for _, p := range windowParts {
			keys = append(keys, key+"."+p)
		}
	case reflect.Struct:
		for i := range t.NumField() {
			name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
			keys = append(keys, key+"."+name)
		}
	}
	return keys
}

// Name is what a key of a prediction is called; empty for what is no number of it.
func Name(key string) string { return sheetOf(key).name }
