package file

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
)

// leaf reads one value of the source into a field; a value of the wrong type
// is reported and leaves the default. Ranges are judged later, all at once.
func (r *reader) leaf(k *schema.Key, f reflect.Value, raw any, n *node, path string) {
	if k.Kind == schema.Settings {
		r.settings(f, raw, n, path)
		return
	}
	v, ok := take(k, raw)
	if !ok {
		r.report(design.Error, n.at, path, "{key} is {value}, expected {wanted}", path, kindOf(raw), k.Wanted())
		return
	}
	if t, isTime := v.(time.Time); isTime {
		v = r.moment(t, n, path)
	}
	schema.Assign(f, v)
}

// take turns a decoded value into one of the key's kind.
func take(k *schema.Key, raw any) (v any, ok bool) {
	switch k.Kind {
	case schema.Number:
		x, ok := asNumber(raw)
		return x, ok
	case schema.Whole:
		n, ok := raw.(int64)
		if !ok || n < -1<<31 || n >= 1<<31 {
			return nil, false
		}
		return int(n), true
	case schema.Text, schema.Word:
		s, ok := raw.(string)
		return s, ok
	case schema.Switch:
		b, ok := raw.(bool)
		return b, ok
	case schema.Numbers:
		list, ok := raw.([]any)
		if !ok {
			return nil, false
		}
		xs := make([]float64, len(list))
		for i, e := range list {
			if xs[i], ok = asNumber(e); !ok {
				return nil, false
			}
		}
		return xs, true
	case schema.Words:
		list, ok := raw.([]any)
		if !ok {
			return nil, false
		}
		ws := make([]string, len(list))
		for i, e := range list {
			if ws[i], ok = e.(string); !ok {
				return nil, false
			}
		}
		return ws, true
	case schema.Date:
		t, ok := raw.(time.Time)
		return schema.Day(t.Format(time.DateOnly)), ok && t.Location().String() == "date-local"
	case schema.Time:
		t, ok := raw.(time.Time)
		return t, ok && t.Location().String() != "time-local"
	}
	return nil, false
}

func asNumber(raw any) (float64, bool) {
	switch x := raw.(type) {
	case float64:
		return x, true
	case int64:
		return float64(x), true
	}
	return 0, false
}

// moment gives a time without an offset the offset of UTC: the file must mean
// the same on every machine.
func (r *reader) moment(t time.Time, n *node, path string) time.Time {
	switch t.Location().String() {
	case "datetime-local", "date-local":
		r.report(design.Warning, n.at, path, "{key} has no offset and is taken as UTC; write one behind it, such as Z or +02:00", path)
		t = time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC)
	}
	if _, off := t.Zone(); off == 0 {
		return t.UTC()
	}
	return t
}

// settings reads the table of a ghost's settings. Dotted keys without quotes
// arrive as tables within tables; they mean the same path.
func (r *reader) settings(f reflect.Value, raw any, n *node, path string) {
	m, ok := raw.(map[string]any)
	if !ok {
		r.report(design.Error, n.at, path, "{key} is {value}, expected a table of settings", path, kindOf(raw))
		return
	}
	out := map[string]any{}
	r.flatten(out, m, n, path, "")
	if len(out) > 0 {
		f.Set(reflect.ValueOf(out))
	}
}

func (r *reader) flatten(out, m map[string]any, n *node, path, name string) {
	for i, part := range n.names {
		kid, key := n.kids[i], part
		if name != "" {
			key = name + "." + part
		}
		if sub, ok := m[part].(map[string]any); ok {
			r.flatten(out, sub, kid, path, key)
			continue
		}
		p := path + "." + key
		if _, twice := out[key]; twice {
			r.report(design.Error, kid.at, p, "{key} holds {name} twice", path, schema.Short(key))
			continue
		}
		r.nodes[p] = kid
		v := m[part]
		if t, ok := v.(time.Time); ok && strings.HasSuffix(t.Location().String(), "-local") {
			v = fmt.Sprint(r.src[kid.start:kid.end])
		}
		if v = schema.SettingValue(v); v == nil {
			r.report(design.Error, kid.at, p, "{key}: {name} is {value}, expected a number, text, or true or false", path, schema.Short(key), kindOf(m[part]))
			continue
		}
		out[key] = v
	}
}
