package file

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"skep/calc/design"
)

// Shapes that have to do with more than one part of the reader.
var seeds = []string{
	"", "\n", "\ufeffformat = 1", least, least + "[[honey]]\n[[honey]]\nmass_kg = 1\n[honey.x]\n",
	"a.b.c = 1\n[a.b.d]\n", "a = [[1, 2], ['x', {y = 1}], ]", "a = \"\"\"\"\"x\"\"\"\"\"\n", "a = '''''x'''''",
	"a = {\n b = 1, # c\n c.d = 2,\n}", "d = 1979-05-27 07:32:00\n", "[ a . \"b.c\" . 'd' ]\r\nx = 1\r\n", "[[a.b]]\n[a]\n",
	"ghost = { settings = { mash.rest.0.temperature_c = 64, \"title\" = 'x' } }", "\"\\u00e9\\x41\\e\" = 1", "a = +nan\nb = 0x_1", "[\x00]",
}

// FuzzParse: no text makes the reader panic or hang, and every finding
// points into the text.
func FuzzParse(f *testing.F) {
	f.Add([]byte(example(f)))
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		doc, found := Parse("f", src)
		if doc == nil && !design.HasErrors(found) {
			t.Error("nothing read, nothing said")
		}
		lines := bytes.Count(src, []byte("\n")) + 1
		for _, x := range found {
			if x.Line < 1 || x.Line > lines || x.Col < 1 || x.Message.Empty() {
				t.Errorf("%+v in %d lines", x, lines)
			}
		}
	})
}

// FuzzList: no catalogue makes the reader panic or hang, every finding points
// into the text, and what is read without an error is whole.
func FuzzList(f *testing.F) {
	files, err := filepath.Glob("../../../assets/catalogue/*.toml")
	if err != nil || len(files) < 4 {
		f.Fatal(files, err)
	}
	for _, name := range files {
		src, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	for _, s := range append(seeds, "[[yeast]]\nname = 'x'\nattenuation_low_pct = 80\n", "[[hop]]\n[[hop]]\nname = ''", "grain = [{name = 'a'}, {name = 'A'}]") {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		list, found := ParseList("f", src)
		lines := bytes.Count(src, []byte("\n")) + 1
		for _, x := range found {
			if x.Line < 1 || x.Line > lines || x.Col < 1 || x.Message.Empty() {
				t.Errorf("%+v in %d lines", x, lines)
			}
		}
		if design.HasErrors(found) {
			return
		}
		for _, y := range list.Yeast {
			if !(y.AttenuationLowPct <= y.AttenuationHighPct && y.AttenuationLowPct > 0 && y.AttenuationHighPct <= 100) {
				t.Errorf("taken without an error: %+v", y)
			}
		}
	})
}

// FuzzWrite: whatever valid file a person has, a change is written and read
// back, and no change leaves every byte.
func FuzzWrite(f *testing.F) {
	f.Add([]byte(example(f)), uint16(0))
	for i, s := range seeds {
		f.Add([]byte(least+s), uint16(i))
	}
	f.Fuzz(func(t *testing.T, src []byte, what uint16) {
		doc, found := Parse("f", src)
		if doc == nil || design.HasErrors(found) {
			return
		}
		d := doc.Design.Clone()
		if out, err := doc.Write(d); err != nil || !bytes.Equal(out, src) {
			t.Fatalf("unchanged, yet: %v\n%s", err, out)
		}
		for i := 0; i < 4; i++ {
			vary(&d, int(what>>(4*i))%16)
		}
		out, err := doc.Write(d)
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		if again, _ := Parse("f", out); again == nil || !again.Design.Equal(d) {
			t.Fatalf("read back otherwise:\n%s\nfrom\n%s", out, src)
		}
	})
}

// vary makes one of sixteen changes.
func vary(d *design.Design, what int) {
	switch what {
	case 1:
		d.Mash.Rest = append(d.Mash.Rest, design.NewRest())
	case 2:
		d.Honey = append([]design.Honey{design.NewHoney()}, d.Honey...)
	case 3:
		d.Honey = nil
	case 4:
		d.Kit.TapC = 11
	case 5:
		d.Crush, d.Ghost = nil, nil
	case 6:
		d.Crush, d.Water = design.NewCrush(), design.NewWater()
	case 7:
		d.Ghost = &design.Ghost{Name: "g", Settings: map[string]any{"title": "x", "mash": 1.0}}
	case 8:
		d.Taste = design.Taste{Body: ptr(30), Hold: []string{"grain"}}
	case 9:
		d.Taste = design.Taste{}
	case 10:
		d.Yeast[0], d.Yeast[len(d.Yeast)-1] = d.Yeast[len(d.Yeast)-1], d.Yeast[0]
	case 11:
		d.Grain = d.Grain[:1]
	case 12:
		d.Title, d.Notes = "t\"\\", "a\nb\r\n"
	case 13:
		d.Mash.LiquorLPerKg, d.Batch.AltitudeM = 3.5, 12
	case 14:
		d.Hop, d.Reading = append(d.Hop, design.NewHop()), nil
	case 15:
		d.Grain[0].Name, d.Honey = "x", append(d.Honey, design.Honey{Name: "Ivy", MassKg: 1, MoisturePct: 18, Moment: design.MomentBoil, HoursAfterHeight: 12, Raw: false})
	}
}

// FuzzSet: no path and no value makes Set panic; what it takes is valid by
// itself, and Get gives it back so that Set takes it again.
func FuzzSet(f *testing.F) {
	for _, k := range design.Keys() {
		f.Add(k.Path, "1")
	}
	for _, s := range [][2]string{{"mash.rest.0.temperature_c", "66.5"}, {"honey.0.moment", "boil"}, {"ghost.settings.title", "x"},
		{"taste.hold", "[grain]"}, {"reading.0.at", "2026-06-20T15:40:00Z"}, {"honey.99999999999999999999.raw", "true"}, {"..", ""}} {
		f.Add(s[0], s[1])
	}
	f.Fuzz(func(t *testing.T, path, value string) {
		d := gateField()
		if err := d.Set(path, value); err != nil {
			if !d.Equal(gateField()) {
				t.Errorf("refused, yet changed: %v", err)
			}
			return
		}
		got, err := d.Get(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := d.Set(path, got); err != nil {
			t.Errorf("Set(%q, %q) after Get: %v", path, got, err)
		}
		for _, x := range d.Validate() {
			if x.Severity == design.Error && x.Key == path && path != "reading.0.value" && path != "yeast.0.attenuation_low_pct" {
				t.Error(x)
			}
		}
	})
}
