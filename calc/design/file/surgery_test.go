package file

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/design"
	"skep/calc/design/internal/schema"
)

// Changes to the example, and what becomes of its text: each case names lines
// that go (-) and come (+); all others must stand as they stood.
func TestSurgery(t *testing.T) {
	t.Parallel()
	second := design.Yeast{Name: "Sweet ale", AttenuationLowPct: 66, AttenuationHighPct: 70, TemperatureC: 18, CellsBillionPerL: 9, Form: "liquid", EatsDextrin: false}
	for _, c := range []struct {
		name   string
		change func(d *design.Design)
		diff   string
	}{
		{"nothing", func(d *design.Design) {}, ""},
		{"number", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 68 }, `
-temperature_c = 66.5
+temperature_c = 68.0`},
		{"dust", func(d *design.Design) { d.Honey[0].MassKg = 0.1 + 0.2 }, `
-mass_kg = 0.55
+mass_kg = 0.3`},
		{"remark stays", func(d *design.Design) { d.Batch.IntoFermenterL = 18.25 }, `
-into_fermenter_l = 15.0            # run off cool
+into_fermenter_l = 18.25            # run off cool`},
		{"list", func(d *design.Design) { d.Crush.OnSievePct = []float64{20, 19, 28, 15, 4, 14} }, `
-on_sieve_pct = [27, 12, 28, 15, 4, 14]   # shaken for three minutes
+on_sieve_pct = [20, 19, 28, 15, 4, 14]   # shaken for three minutes`},
		{"second yeast", func(d *design.Design) { d.Yeast = append(d.Yeast, second) }, `
+[[yeast]]
+name = "Sweet ale"
+attenuation_low_pct = 66
+attenuation_high_pct = 70
+temperature_c = 18
+cells_billion_per_l = 9
+form = "liquid"
+eats_dextrin = false
+`},
		{"no honey", func(d *design.Design) { d.Honey = nil }, `
-[[honey]]                          # from the hives behind the sheds
-name = "Lime blossom"
-mass_kg = 0.55
-moisture_pct = 17.5
-moment = "fermenting"
-hours_after_height = 12
-raw = true
-`},
		{"wish taken back", func(d *design.Design) { d.Taste.Body = nil }, `
-body = 40`},
		{"no ghost", func(d *design.Design) { d.Ghost = nil }, `
-[ghost]
-name = "as first drawn"
-settings = { "mash.rest.0.temperature_c" = 64.0 }
-`},
		{"ghost's setting", func(d *design.Design) { d.Ghost.Settings["yeast.0.temperature_c"] = 18.0 }, `
-settings = { "mash.rest.0.temperature_c" = 64.0 }
+settings = { "mash.rest.0.temperature_c" = 64.0, "yeast.0.temperature_c" = 18 }`},
		{"notes", func(d *design.Design) { d.Notes = "one\ntwo \"2\"" }, `
-notes = ""
+notes = """
+one
+two \"2\""""`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			src := example(t)
			doc := read(t, src)
			d := doc.Design.Clone()
			c.change(&d)
			out, err := doc.Write(d)
			if err != nil {
				t.Fatal(err)
			}
			if got := diff(src, string(out)); got != strings.TrimPrefix(c.diff, "\n") {
				t.Errorf("got\n%s\nwant%s", got, c.diff)
			}
			// Windows line ends must come through as they are.
			crlf := read(t, strings.ReplaceAll(src, "\n", "\r\n"))
			d.Notes = strings.ReplaceAll(d.Notes, "\n", " ")
			out, err = crlf.Write(d)
			if err != nil || strings.Count(string(out), "\n") != strings.Count(string(out), "\r\n") {
				t.Errorf("%v: mixed line ends", err)
			}
		})
	}
}

// diff lists the lines that differ, by the longest common run.
func diff(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	n := make([][]int, len(x)+1)
	for i := range n {
		n[i] = make([]int, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			if n[i][j] = max(n[i+1][j], n[i][j+1]); x[i] == y[j] {
				n[i][j] = n[i+1][j+1] + 1
			}
		}
	}
	var out []string
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			i, j = i+1, j+1
		case j == len(y) || i < len(x) && n[i+1][j] >= n[i][j+1]:
			out = append(out, "-"+x[i])
			i++
		default:
			out = append(out, "+"+y[j])
			j++
		}
	}
	return strings.Join(out, "\n")
}

// A reordered entry takes its comments and unknown keys along, also when it is
// changed on the way.
func TestMovedEntryKeepsItsText(t *testing.T) {
	t.Parallel()
	src := least + `
# the old faithful
[[honey]]
name = "Ivy"
hive = 3 # unknown

[[honey]]
name = "Clover"
mass_kg = 0.80 # weighed
`
	doc := read(t, src)
	d := doc.Design.Clone()
	d.Honey[0], d.Honey[1] = d.Honey[1], d.Honey[0]
	d.Honey[1].MassKg = 0.4
	out, err := doc.Write(d)
	if err != nil {
		t.Fatal(err)
	}
	want := least + `
[[honey]]
name = "Clover"
mass_kg = 0.80 # weighed

# the old faithful
[[honey]]
name = "Ivy"
mass_kg = 0.4
hive = 3 # unknown
`
	if strings.TrimSpace(string(out)) != strings.TrimSpace(want) {
		t.Errorf("got\n%s", out)
	}
}

func TestWriteRefuses(t *testing.T) {
	t.Parallel()
	doc := read(t, example(t))
	d := doc.Design.Clone()
	d.Mash.Rest[0].Minutes = 0
	if _, err := doc.Write(d); err == nil || err.Error() != "mash.rest.0.minutes = 0 is outside 1 to 240 min" {
		t.Error(err)
	}
	bad, _ := Parse("f", []byte(strings.Replace(example(t), "tap_c = 14", `tap_c = "cold"`, 1)))
	if _, err := bad.Write(gateField()); err == nil || !strings.Contains(err.Error(), "f:20: kit.tap_c") {
		t.Error(err)
	}
	// What could be read can be mended, and is written once it is.
	bad, _ = Parse("f", []byte(strings.Replace(example(t), "tap_c = 14", "tap_c = 400", 1)))
	if _, err := bad.Write(bad.Design); err == nil || !strings.Contains(err.Error(), "kit.tap_c = 400 is outside 0 to 40 °C") {
		t.Error(err)
	}
	mended := bad.Design.Clone()
	mended.Kit.TapC = 14
	if out, err := bad.Write(mended); err != nil || string(out) != example(t) {
		t.Errorf("%v: %s", err, out)
	}
	d = doc.Design.Clone()
	d.Notes = strings.Repeat("x", 200_000+1)
	if _, err := doc.Write(d); err == nil {
		t.Error("written")
	}
}

func TestEncodeThenParse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := genDesign(t)
		out, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		if got := read(t, string(out)).Design; !got.Equal(d) {
			t.Fatalf("%s\ngave\n%+v\nwant\n%+v", out, got, d)
		}
	})
}

// A new file has nothing to remark on, and every key says its range.
func TestEncodeIsTidy(t *testing.T) {
	t.Parallel()
	out, err := Encode(gateField())
	if err != nil {
		t.Fatal(err)
	}
	if _, found := Parse("", out); len(found) > 0 {
		t.Error(found)
	}
	for _, want := range []string{
		"into_fermenter_l = 15               # 1 to 200 L; cool wort run off into the fermenter\n",
		"\n[[mash.rest]]\ntemperature_c = 66.5                # 40 to 80 °C; in order; ramps",
		"settings = { \"mash.rest.0.temperature_c\" = 64 }",
		"at = 2026-06-20T15:40:00Z",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if _, err := Encode(design.New()); err == nil {
		t.Error("a design without grain was encoded")
	}
}

func TestNumbersArePlain(t *testing.T) {
	t.Parallel()
	for x, want := range map[float64]string{
		0.55: "0.55", 66.5: "66.5", 60: "60", 0.30000000000000004: "0.3", -48: "-48", 1.0505: "1.0505",
		1e-9: "1e-09", 1.0 / 3: "0.3333333333333333", 200000: "200000", 19.319999999999993: "19.32",
	} {
		if got := schema.FormatNumber(x); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
}
