package design

import (
	"reflect"
	"slices"
	"time"
)

// Clone is a deep copy: nothing is shared with d.
func (d Design) Clone() Design {
	c := d
	if d.Crush != nil {
		x := *d.Crush
		x.OnSievePct = slices.Clone(x.OnSievePct)
		c.Crush = &x
	}
	if d.Water != nil {
		x := *d.Water
		c.Water = &x
	}
	c.Mash.Rest = slices.Clone(d.Mash.Rest)
	c.Grain = slices.Clone(d.Grain)
	c.Yeast = slices.Clone(d.Yeast)
	c.Temperature = slices.Clone(d.Temperature)
	c.Honey = slices.Clone(d.Honey)
	c.Hop = slices.Clone(d.Hop)
	c.Reading = slices.Clone(d.Reading)
	c.Taste.StrengthPct = clonePtr(d.Taste.StrengthPct)
	c.Taste.Dryness = clonePtr(d.Taste.Dryness)
	c.Taste.Body = clonePtr(d.Taste.Body)
	c.Taste.Hold = slices.Clone(d.Taste.Hold)
	if d.Ghost != nil {
		x := *d.Ghost
		x.Settings = cloneSettings(x.Settings)
		c.Ghost = &x
	}
	return c
}

func clonePtr(p *float64) *float64 {
	if p == nil {
		return nil
	}
	x := *p
	return &x
}

func cloneSettings(m map[string]any) map[string]any {
	if m == nil {
		return nil
	}
	c := make(map[string]any, len(m))
	for k, v := range m {
		switch x := v.(type) {
		case []float64:
			v = slices.Clone(x)
		case []string:
			v = slices.Clone(x)
		case []any:
			v = slices.Clone(x)
		}
		c[k] = v
	}
	return c
}

// Equal tells whether two designs would be written alike: numbers that differ
// only by the dust of binary arithmetic are the same, and so are an empty list
// and none.
func (d Design) Equal(o Design) bool {
	return designSchema().root.same(reflect.ValueOf(&d).Elem(), reflect.ValueOf(&o).Elem())
}

// same compares two structs of the branch's type.
func (b *branch) same(x, y reflect.Value) bool {
	for _, k := range b.kids {
		if !k.sameField(k.of(x), k.of(y)) {
			return false
		}
	}
	return true
}

func (b *branch) sameField(x, y reflect.Value) bool {
	switch {
	case b.leaf():
		return sameLeaf(x, y)
	case b.list:
		if x.Len() != y.Len() {
			return false
		}
		for i := 0; i < x.Len(); i++ {
			if !b.same(x.Index(i), y.Index(i)) {
				return false
			}
		}
		return true
	case b.opt:
		if x.IsNil() || y.IsNil() {
			return x.IsNil() == y.IsNil()
		}
		return b.same(x.Elem(), y.Elem())
	}
	return b.same(x, y)
}

// sameLeaf compares two leaves of one type.
func sameLeaf(x, y reflect.Value) bool {
	switch x.Kind() {
	case reflect.Float64:
		return sameNumber(x.Float(), y.Float())
	case reflect.Int, reflect.String, reflect.Bool:
		return x.Equal(y)
	}
	return sameValue(valueOf(x), valueOf(y))
}

func sameValue(x, y any) bool {
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
			if !ok || !sameValue(settingValue(v), settingValue(w)) {
				return false
			}
		}
		return true
	case nil, string, bool, int:
		return x == y
	}
	return false
}

// settingValue brings a setting of the ghost into one of the kinds that are
// written: float64, string, bool, []float64 or []string; nil for any other.
func settingValue(v any) any {
	switch x := v.(type) {
	case float64, string, bool:
		return x
	case int:
		return float64(x)
	case int64:
		return float64(x)
	case time.Time:
		return formatTime(x)
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
		switch e := settingValue(e).(type) {
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
