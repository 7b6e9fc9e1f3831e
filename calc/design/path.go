package design

import (
	"reflect"
	"sort"
	"strconv"
	"strings"

	"skep/calc/design/internal/schema"
	"skep/calc/message"
)

func splitPath(p string) []string { return strings.Split(p, ".") }

// Set changes one value, named by a path such as title,
// mash.rest.0.temperature_c or honey.1.moment, to a value as typed. Positions
// count from 0 and must exist. A wish of taste is taken back by "" or none, a
// list is written a, b. [crush] and [water] come into being with their
// defaults when one of their keys is set.
//
// The value's own range is checked here; what holds between two values (the
// low attenuation not above the high one) only in [Design.Validate], so that
// two of them can be set one after the other.
func (d *Design) Set(path, value string) error {
	if name, ok := strings.CutPrefix(path, "ghost.settings."); ok {
		return d.setGhost(path, name, value)
	}
	f, k, err := d.find(path, true)
	if err != nil {
		return err
	}
	v, err := k.Key.Parse(path, value)
	if err != nil {
		return err
	}
	if f.IsValid() {
		schema.Assign(f, v)
		return nil
	}
	// The table is not there yet: it comes into being only now that the
	// value is known to be good.
	f, _, err = d.find(path, false)
	if err != nil {
		return err
	}
	schema.Assign(f, v)
	return nil
}

// setGhost keeps a setting of the ghost, which must be one that Set takes.
func (d *Design) setGhost(path, name, value string) error {
	if strings.HasPrefix(name, "ghost.") {
		return message.NewError("{key}: a ghost has no ghost", schema.Short(path))
	}
	trial := d.Clone()
	if err := trial.Set(name, value); err != nil {
		return message.After(path+": ", err).Err()
	}
	f, _, err := trial.find(name, true)
	if err != nil || !f.IsValid() {
		return message.NewError("{key}: {name} cannot be kept as a setting", path, name)
	}
	if d.Ghost == nil {
		d.Ghost = &Ghost{}
	}
	settings := map[string]any{}
	for k, v := range d.Ghost.Settings {
		settings[k] = v
	}
	switch v := schema.ValueOf(f).(type) {
	case float64, bool:
		settings[name] = v
	default:
		settings[name] = schema.Format(v)
	}
	d.Ghost.Settings = settings
	return nil
}

// Get is the value of a path as [Design.Set] takes it.
func (d Design) Get(path string) (string, error) {
	if name, ok := strings.CutPrefix(path, "ghost.settings."); ok {
		if d.Ghost != nil {
			if v, ok := d.Ghost.Settings[name]; ok {
				return schema.Format(schema.SettingValue(v)), nil
			}
		}
		return "", message.NewError("the ghost has no setting {name}", schema.ShortQuote(name))
	}
	f, k, err := d.find(path, true)
	if err != nil {
		return "", err
	}
	if !f.IsValid() {
		return "", nil // in a table that is absent
	}
	if k.Key.Kind == Settings {
		return "", message.NewError("{key} is a table; name one of its keys", path)
	}
	return schema.Format(schema.ValueOf(f)), nil
}

// find walks to a leaf. With look, an absent optional table gives an invalid
// value; without, the table is made.
func (d *Design) find(path string, look bool) (reflect.Value, *schema.Branch, error) {
	b, v := designSchema().Root, reflect.ValueOf(d).Elem()
	parts := splitPath(path)
	for i := 0; i < len(parts); i++ {
		k, ok := b.ByName[parts[i]]
		if !ok {
			return v, nil, unknownPath(path, d)
		}
		b = k
		if v.IsValid() {
			v = b.Of(v)
		}
		switch {
		case b.Leaf():
			if i+1 < len(parts) {
				return v, nil, unknownPath(path, d)
			}
			return v, b, nil
		case b.List:
			here := strings.Join(parts[:i+1], ".")
			if i+1 == len(parts) {
				return v, nil, message.NewError("{key} is a list; name an entry and one of its keys, such as {key}.0.{name}", path, b.Kids[0].Name)
			}
			i++
			n, err := strconv.Atoi(parts[i])
			if !schema.IsIndex(parts[i]) || err != nil || n >= v.Len() {
				return v, nil, message.After(schema.Short(path)+": ", countOf(here, v.Len())).Err()
			}
			v = v.Index(n)
		case b.Opt && v.IsValid():
			if v.IsNil() {
				if look {
					v = reflect.Value{}
					continue
				}
				p := reflect.New(b.Type)
				b.SetDefaults(p.Elem())
				v.Set(p)
			}
			v = v.Elem()
		}
	}
	return v, nil, message.NewError("{key} is a table; name one of its keys: {names}", path, schema.OneOf(kidNames(b)))
}

func countOf(list string, n int) message.Message {
	if n == 0 {
		return message.New("the design has no {list}", list)
	}
	return message.Counted("there is one {list}, {list}.0", "there are {count} of {list}, numbered 0 to {last}", n, list, n-1)
}

func kidNames(b *schema.Branch) []string {
	s := make([]string, len(b.Kids))
	for i, k := range b.Kids {
		s[i] = k.Name
	}
	return s
}

// unknownPath is the error for a path that names nothing, with near ones.
func unknownPath(path string, d *Design) error {
	if near := nearPaths(path, d); len(near) > 0 {
		return message.NewError("unknown key {key}; near it: {near}", schema.Short(path), strings.Join(near, ", "))
	}
	return message.NewError("unknown key {key}; skep help design lists all", schema.Short(path))
}

// nearPaths lists up to three known paths close to a wrong one.
func nearPaths(path string, d *Design) []string {
	if len(path) > 100 {
		return nil
	}
	parts := splitPath(strings.ToLower(path))
	for i, p := range parts {
		if schema.IsIndex(p) {
			parts[i] = "N"
		}
	}
	want := strings.Join(parts, ".")
	last := parts[len(parts)-1]
	type hit struct {
		path string
		cost int
	}
	var hits []hit
	for _, k := range designSchema().Keys {
		cost := schema.Distance(want, k.Path)
		if c := schema.Distance(last, k.Name()) + 2; c < cost && len(last) > 3 {
			cost = c // the right key without, or under a wrong, table
		}
		if len(last) > 2 && strings.HasPrefix(k.Path, want) {
			cost = min(cost, 1) // the unit was left off
		}
		if cost <= 1+len(k.Name())/4 {
			hits = append(hits, hit{k.Path, cost})
		}
	}
	sort.SliceStable(hits, func(i, j int) bool { return hits[i].cost < hits[j].cost })
	var out []string
	for _, h := range hits {
		if len(out) == 3 || h.cost > hits[0].cost+1 {
			break
		}
		out = append(out, withIndexes(h.path, path))
	}
	return out
}

// withIndexes puts the positions that a person typed (or 0) in place of N.
func withIndexes(schemaPath, typed string) string {
	var given []string
	for _, p := range splitPath(typed) {
		if schema.IsIndex(p) {
			given = append(given, p)
		}
	}
	parts := splitPath(schemaPath)
	for i, p := range parts {
		if p != "N" {
			continue
		}
		parts[i] = "0"
		if len(given) > 0 {
			parts[i], given = given[0], given[1:]
		}
	}
	return strings.Join(parts, ".")
}
