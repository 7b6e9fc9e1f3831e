package design_test

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"skep/calc/design"
	"skep/calc/design/file"
)

// gateField is the published format's own example.
func gateField() design.Design {
	src, err := os.ReadFile("file/testdata/gate-field.toml")
	if err != nil {
		panic(err)
	}
	doc, _ := file.Parse("gate-field.toml", src)
	return doc.Design
}

func TestSetAndGet(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ path, in, out, err string }{
		{"title", "Dry one", "Dry one", ""},
		{"mash.rest.0.temperature_c", "68", "68", ""},
		{"mash.rest.0.temperature_c", " 66.50 ", "66.5", ""},
		{"mash.rest.0.temperature_c", "95", "", "mash.rest.0.temperature_c = 95 is outside 40 to 80 °C"},
		{"mash.rest.0.temperature_c", "NaN", "", "mash.rest.0.temperature_c = nan is not a finite number, expected 40 to 80 °C"},
		{"mash.rest.0.temperature_c", "1e999", "", "mash.rest.0.temperature_c = inf is not a finite number, expected 40 to 80 °C"},
		{"mash.rest.0.temperature_c", "warm", "", `mash.rest.0.temperature_c = "warm" is not what is expected: a number (40 to 80 °C)`},
		{"mash.rest.0.temperature_c", "66,5", "", `mash.rest.0.temperature_c = "66,5" is not what is expected: a number (40 to 80 °C)`},
		{"mash.rest.1.temperature_c", "66", "", "mash.rest.1.temperature_c: there is one mash.rest, mash.rest.0"},
		{"honey.2.moment", "boil", "", "honey.2.moment: there are 2 of honey, numbered 0 and 1"},
		{"honey.1.moment", "boil", "boil", ""},
		{"honey.1.moment", "later", "", `honey.1.moment = "later" is not known, expected boil, whirlpool, pitching or fermenting`},
		{"honey.1.raw", "false", "false", ""},
		{"honey.1.raw", "no", "", `honey.1.raw = "no" is not what is expected: true or false`},
		{"honey.mass_kg", "1", "", "honey.mass_kg: there are 2 of honey, numbered 0 and 1"},
		{"honey.-1.mass_kg", "1", "", "honey.-1.mass_kg: there are 2 of honey, numbered 0 and 1"},
		{"honey.0.mass", "1", "", "unknown key honey.0.mass; near it: honey.0.mass_kg"},
		{"mash.rest.0.temprature_c", "66", "", "unknown key mash.rest.0.temprature_c; near it: mash.rest.0.temperature_c"},
		{"kit.TAP_C", "14", "", "unknown key kit.TAP_C; near it: kit.tap_c"},
		{"zzzzzzzz", "14", "", "unknown key zzzzzzzz; skep help design lists all"},
		{"", "14", "", `unknown key ; skep help design lists all`},
		{"title.x", "14", "", "unknown key title.x; near it: title"},
		{"kit", "14", "", "kit is a table; name one of its keys: name, formerly, vessel_l, heater_w, vessel_heat_kj_per_k, mash_efficiency_pct, under_the_bed_l, held_by_grain_l_per_kg, steam_l_per_h, left_with_break_l, left_in_chiller_l, tap_c, fermenter_l, rest_error_c or thermometer_reads_high_k"},
		{"hop", "14", "", "hop is a list; name an entry and one of its keys, such as hop.0.name"},
		{"yeast.0.attenuation_low_pct", "70", "70", ""},
		{"taste.body", "33", "33", ""},
		{"taste.body", "", "", ""},
		{"taste.hold", "grain, primer", "grain, primer", ""},
		{"taste.hold", `["grain"]`, "grain", ""},
		{"taste.hold", "", "", ""},
		{"taste.hold", "hops", "", `taste.hold = "hops" is not known, expected mash.rest, mash.minutes, yeast, yeast.temperature, honey.mass, honey.moment, grain or primer`},
		{"crush.on_sieve_pct", "20,20,20,20,10,10", "20, 20, 20, 20, 10, 10", ""},
		{"water.calcium", "80", "80", ""},
		{"package.primer", "table sugar", "table sugar", ""},
		{"reading.0.at", "2026-06-20T15:40:00+02:00", "2026-06-20T15:40:00+02:00", ""},
		{"reading.0.at", "yesterday", "", `reading.0.at = "yesterday" is not what is expected: a date and time such as 2026-06-20T15:40:00Z`},
		{"format", "2", "", "format = 2, expected 1"},
		{"format", "1.5", "", `format = "1.5" is not what is expected: a whole number (1)`},
		{"ghost.settings", "1", "", "ghost.settings is a table; set one of its keys, such as ghost.settings.mash.rest.0.temperature_c"},
		{"ghost.settings.yeast.0.temperature_c", "18", "18", ""},
		{"ghost.settings.yeast.0.temperature_c", "99", "", "ghost.settings.yeast.0.temperature_c: yeast.0.temperature_c = 99 is outside 4 to 40 °C"},
		{"ghost.settings.ghost.settings.title", "a", "", "ghost.settings.ghost.settings.title: a ghost has no ghost"},
	} {
		d := gateField()
		d.Honey = append(d.Honey, design.NewHoney())
		before := d.Clone()
		err := d.Set(c.path, c.in)
		if c.err != "" {
			if err == nil || err.Error() != strings.ReplaceAll(c.err, "0 and 1", "0 to 1") {
				t.Errorf("Set(%q, %q) gave %v, want %s", c.path, c.in, err, c.err)
			}
			if !reflect.DeepEqual(d, before) {
				t.Errorf("Set(%q, %q) failed but changed the design", c.path, c.in)
			}
			continue
		}
		if err != nil {
			t.Errorf("Set(%q, %q): %v", c.path, c.in, err)
		}
		if got, err := d.Get(c.path); got != c.out || err != nil {
			t.Errorf("Get(%q) = %q, %v after Set to %q", c.path, got, err, c.in)
		}
	}
}

// A table that a design does not have comes into being by a good value only.
func TestSetMakesOptionalTables(t *testing.T) {
	t.Parallel()
	d := design.New()
	if err := d.Set("water.calcium", "-1"); err == nil || d.Water != nil {
		t.Errorf("%v, %+v", err, d.Water)
	}
	if err := d.Set("water.calcium", "7"); err != nil || d.Water.Calcium != 7 || d.Water.Sodium != 12 {
		t.Errorf("%v, %+v", err, d.Water)
	}
	if s, err := design.New().Get("crush.by_eye"); s != "" || err != nil {
		t.Errorf("%q, %v", s, err)
	}
}

func TestKeys(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	d := gateField()
	d.Temperature = []design.TemperatureStep{{AtHours: 48, TemperatureC: 20}} // the example has none
	for _, k := range design.Keys() {
		if seen[k.Path] {
			t.Errorf("%s stands twice", k.Path)
		}
		seen[k.Path] = true
		if _, err := d.Get(strings.ReplaceAll(k.Path, "N", "0")); err != nil && k.Kind != design.Settings {
			t.Error(err)
		}
		if k.Def != nil {
			if p := k.Problem(k.Path, k.Def); !p.Empty() {
				t.Errorf("the default is refused: %s", p)
			}
		}
		switch k.Kind {
		case design.Number, design.Whole, design.Numbers:
			if !(k.Min <= k.Max) {
				t.Errorf("%s: %v to %v", k.Path, k.Min, k.Max)
			}
		case design.Word, design.Words:
			if len(k.Words) < 2 {
				t.Errorf("%s has no words", k.Path)
			}
		}
	}
	// Every field of the types has its key: none is read or written unseen.
	if n := leaves(reflect.TypeOf(design.Design{})); n != len(seen) {
		t.Errorf("%d fields, %d keys", n, len(seen))
	}
	if k, ok := design.KeyOf("mash.rest.3.temperature_c"); !ok || k.Max != 80 || k.Range().String() != "40 to 80 °C" || !k.Required {
		t.Errorf("%+v", k)
	}
	if _, ok := design.KeyOf("mash.rest"); ok {
		t.Error("mash.rest is no key")
	}
}

func leaves(t reflect.Type) int {
	switch {
	case t.Kind() == reflect.Pointer && t.Elem().Kind() == reflect.Struct, t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct:
		return leaves(t.Elem())
	case t.Kind() != reflect.Struct || t.String() == "time.Time":
		return 1
	}
	n := 0
	for i := 0; i < t.NumField(); i++ {
		n += leaves(t.Field(i).Type)
	}
	return n
}

func TestCloneSharesNothing(t *testing.T) {
	t.Parallel()
	d := gateField()
	c := d.Clone()
	if !reflect.DeepEqual(c, d) || !c.Equal(d) {
		t.Fatal("the clone differs")
	}
	c.Crush.OnSievePct[0], c.Water.Calcium, c.Mash.Rest[0].Minutes, c.Grain[0].MassKg = 1, 1, 1, 1
	c.Yeast[0].Name, c.Honey[0].Name, c.Hop[0].Name, c.Reading[0].Value = "x", "x", "x", 1
	*c.Taste.Body, *c.Taste.Dryness, *c.Taste.StrengthPct, c.Taste.Hold[0] = 1, 1, 1, "yeast"
	c.Ghost.Settings["mash.rest.0.temperature_c"] = 1.0
	if !reflect.DeepEqual(d, gateField()) {
		t.Errorf("the clone reached back: %+v", d)
	}
}

func TestEqualIgnoresDust(t *testing.T) {
	t.Parallel()
	a, b := gateField(), gateField()
	tenth := 0.1
	b.Mash.Rest[0].TemperatureC = 66.2 + 3*tenth // 66.50000000000001 or so
	if a.Mash.Rest[0].TemperatureC == b.Mash.Rest[0].TemperatureC {
		b.Mash.Rest[0].TemperatureC += 1.5e-14
	}
	if !a.Equal(b) {
		t.Errorf("%v and %v differ", a.Mash.Rest, b.Mash.Rest)
	}
	b.Mash.Rest[0].TemperatureC = 66.500001
	if a.Equal(b) {
		t.Error("66.5 and 66.500001 are taken for the same")
	}
}
