package document

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"
	"time"

	"skep/calc"
	"skep/calc/explain"
)

// Object is the object of one command, for [Describe].
type Object struct {
	Command string
	Of      any // a value of its type
}

// Described is one line of a description: a key, what it holds, what it says.
type Described struct {
	Depth            int
	Key, Kind, About string
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
			kind += ", may be left out"
		} else if f.Type.Kind() == reflect.Pointer {
			kind += ", or null"
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

// kindOf says what a key holds; within is the object in it that has keys of its own.
func kindOf(t reflect.Type) (kind string, within reflect.Type) {
	switch {
	case t == band:
		return "band", nil
	case t == prediction:
		return "a prediction, as of predict", nil
	case t == instant:
		return "time, RFC 3339", nil
	case t.Implements(asText):
		return "text", nil
	}
	switch t.Kind() {
	case reflect.Pointer:
		return kindOf(t.Elem())
	case reflect.Slice:
		kind, within := kindOf(t.Elem())
		return "list of " + plural(kind), within
	case reflect.Array:
		kind, within := kindOf(t.Elem())
		return fmt.Sprintf("%d %s", t.Len(), plural(kind)), within
	case reflect.Map:
		return "object by key", nil
	case reflect.Struct:
		return "object", t
	case reflect.String:
		return "text", nil
	case reflect.Bool:
		return "true or false", nil
	}
	return "number", nil
}

func plural(kind string) string {
	switch kind {
	case "text", "band", "number", "object":
		return kind + "s"
	}
	return kind
}
