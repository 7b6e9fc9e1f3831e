package document

import (
	"encoding"
	"reflect"
	"strings"
	"time"

	"skep/calc"
	"skep/calc/explain"
	"skep/calc/message"
)

// Object is the object of one command, for [Describe].
type Object struct {
	Command string
	When    message.Message // where a command has several
	Of      any             // a value of its type
}

// Described is one line of a description: a key, what it holds, what it says.
type Described struct {
	Depth int
	Key   string
	Kind  message.Message
	About string // English, listed
}

// Describe lists the keys of an object in their order; what stands within another
// is one deeper. A prediction within another object is not opened again.
func Describe(o Object) []Described {
	_, whole := o.Of.(calc.Prediction)
	var d describer
	d.fields(reflect.TypeOf(o.Of), 0, whole)
	return d.lines
}

type describer struct{ lines []Described }

func (d *describer) fields(t reflect.Type, depth int, prediction bool) {
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && name == "":
			d.fields(f.Type, depth, prediction)
			continue
		case name == "" || name == "-" || !f.IsExported():
			continue
		}
		about := f.Tag.Get("about")
		if about == "" && prediction && depth == 0 {
			about = explain.Name(name)
		}
		kind, within := kindOf(f.Type)
		if strings.Contains(options, "omitempty") || strings.Contains(options, "omitzero") {
			kind = message.New("{kind}, may be left out", kind)
		} else if f.Type.Kind() == reflect.Pointer {
			kind = message.New("{kind}, or null", kind)
		}
		d.lines = append(d.lines, Described{depth, name, kind, about})
		if within != nil {
			d.fields(within, depth+1, prediction)
		}
	}
}

var (
	band       = reflect.TypeFor[calc.Band]()
	prediction = reflect.TypeFor[calc.Prediction]()
	instant    = reflect.TypeFor[time.Time]()
	asText     = reflect.TypeFor[encoding.TextMarshaler]()
)

// What a key holds.
var (
	aText    = message.New("text")
	aBand    = message.New("band")
	aNumber  = message.New("number")
	anObject = message.New("object")
)

// kindOf says what a key holds; within is the object in it that has keys of its own.
func kindOf(t reflect.Type) (kind message.Message, within reflect.Type) {
	switch {
	case t == band:
		return aBand, nil
	case t == prediction:
		return message.New("a prediction, as of predict"), nil
	case t == instant:
		return message.New("time, RFC 3339"), nil
	case t.Implements(asText):
		return aText, nil
	}
	switch t.Kind() {
	case reflect.Pointer:
		return kindOf(t.Elem())
	case reflect.Slice:
		kind, within := kindOf(t.Elem())
		return listOf(kind), within
	case reflect.Array:
		kind, within := kindOf(t.Elem())
		return message.New("{count} times: {kind}", t.Len(), kind), within
	case reflect.Map:
		return message.New("object by key"), nil
	case reflect.Struct:
		return anObject, t
	case reflect.String:
		return aText, nil
	case reflect.Bool:
		return message.New("true or false"), nil
	}
	return aNumber, nil
}

func listOf(kind message.Message) message.Message {
	switch kind.Text {
	case aText.Text:
		return message.New("list of texts")
	case aBand.Text:
		return message.New("list of bands")
	case aNumber.Text:
		return message.New("list of numbers")
	case anObject.Text:
		return message.New("list of objects")
	}
	return message.New("list: {kind}", kind)
}
