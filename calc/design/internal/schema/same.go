package schema

import (
	"reflect"
	"slices"
	"time"
)

// Same compares two structs of the branch's type.
func (b *Branch) Same(x, y reflect.Value) bool {
	for _, k := range b.Kids {
		if !k.SameField(k.Of(x), k.Of(y)) {
			return false
		}
	}
	return true
}

func (b *Branch) SameField(x, y reflect.Value) bool {
	switch {
	case b.Leaf():
		return SameLeaf(x, y)
	case b.List:
		if x.Len() != y.Len() {
			return false
		}
		for i := 0; i < x.Len(); i++ {
			if !b.Same(x.Index(i), y.Index(i)) {
				return false
			}
		}
		return true
	case b.Opt:
		if x.IsNil() || y.IsNil() {
			return x.IsNil() == y.IsNil()
		}
		return b.Same(x.Elem(), y.Elem())
	}
	return b.Same(x, y)
}

// SameLeaf compares two leaves of one type.
func SameLeaf(x, y reflect.Value) bool {
	switch x.Kind() {
	case reflect.Float64:
		return sameNumber(x.Float(), y.Float())
	case reflect.Int, reflect.String, reflect.Bool:
		return x.Equal(y)
	}
	return SameValue(ValueOf(x), ValueOf(y))
}

func SameValue(x, y any) bool {
	switch a := x.(type) {
	case float64:
		b, ok := y.(float64)
		return ok && sameNumber(a, b)
	case []float64:
		b, ok := y.([]float64)
		return ok && slices.EqualFunc(a, b, sameNumber)
	case []string:
		b, ok := y.([]string)
		return ok && slices.Equal(a, b)
	case time.Time:
		b, ok := y.(time.Time)
		return ok && a.Equal(b)
	case map[string]any:
		b, ok := y.(map[string]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for k, v := range a {
			w, ok := b[k]
			if !ok || !SameValue(SettingValue(v), SettingValue(w)) {
				return false
			}
		}
		return true
	case nil, string, Day, bool, int:
		return x == y
	}
	return false
}

// SettingValue brings a setting of the ghost into one of the kinds that are
// written: float64, string, bool, []float64 or []string; nil for any other.
func SettingValue(v any) any {
	switch x := v.(type) {
	case float64, string, bool:
		return x
	case int:
		return float64(x)
	case int64:
		return float64(x)
	case time.Time:
		return FormatTime(x)
	case []float64:
		return x
	case []string:
		return x
	case []any:
		return settingList(x)
	}
	return nil
}

func settingList(x []any) any {
	var ns []float64
	var ss []string
	for _, e := range x {
		switch e := SettingValue(e).(type) {
		case float64:
			ns = append(ns, e)
		case string:
			ss = append(ss, e)
		default:
			return nil
		}
	}
	switch {
	case len(ns) > 0 && len(ss) > 0:
		return nil
	case len(ns) > 0:
		return ns
	case len(ss) > 0:
		return ss
	}
	return []string{}
}
