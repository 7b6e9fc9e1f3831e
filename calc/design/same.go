package design

import (
	"reflect"
	"slices"
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
		x.MashPHWanted = clonePtr(x.MashPHWanted)
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
	c.Taste.Honey = clonePtr(d.Taste.Honey)
	c.Taste.HoneyAtHandKg = clonePtr(d.Taste.HoneyAtHandKg)
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
func (d Design) Equal(o Design) bool { return d.Like(&o) }

// Like is [Design.Equal] without the copies, for what is asked at every move of a lever.
func (d *Design) Like(o *Design) bool {
	return designSchema().Root.Same(reflect.ValueOf(d).Elem(), reflect.ValueOf(o).Elem())
}
