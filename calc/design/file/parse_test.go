package file

import (
	"fmt"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"skep/calc/design"
)

func ptr(x float64) *float64 { return &x }

// gateField is the file of testdata as a value: the published format's own
// example values, key by key.
func gateField() design.Design {
	return design.Design{
		Format: 1, Title: "Gate Field Midsummer",
		Batch: design.Batch{IntoFermenterL: 15},
		Kit: design.Kit{VesselL: 30, HeaterW: 2000, VesselHeatKJPerK: 4, MashEfficiencyPct: 74, UnderTheBedL: 1.2,
			HeldByGrainLPerKg: 0.9, SteamLPerH: 2.2, LeftWithBreakL: 1, LeftInChillerL: 0.4, TapC: 14, FermenterL: 25, RestErrorC: 0.7},
		Crush: &design.Crush{OnSievePct: []float64{27, 12, 28, 15, 4, 14}, ByEye: "sound"},
		Water: &design.Water{Calcium: 50, Magnesium: 5, Sodium: 12, Chloride: 20, Sulphate: 40, Bicarbonate: 120},
		Mash:  design.Mash{LiquorLPerKg: 3, GrainC: 18, Rest: []design.Rest{{TemperatureC: 66.5, Minutes: 60}}},
		Grain: []design.Grain{{Name: "Pale malt", MassKg: 2.7, ExtractPct: 80.5, MoisturePct: 4.5, ColourEBC: 5.5, Enzymes: "own"}},
		Yeast: []design.Yeast{{Name: "Clean ale", AttenuationLowPct: 73, AttenuationHighPct: 78, TemperatureC: 19, CellsBillionPerL: 9, Form: "dry", EatsDextrin: false}},
		Honey: []design.Honey{{Name: "Lime blossom", MassKg: 0.55, MoisturePct: 17.5, Moment: "fermenting", HoursAfterHeight: 12, Raw: true}},
		Hop:   []design.Hop{{Name: "Goldings", AlphaPct: 5.2, MassG: 14, When: "boil", Minutes: 60, Days: 4}},
		Boil:  design.Boil{Minutes: 60, WhirlpoolMinutes: 5, StandMinutes: 5, WhirlpoolStartC: 96},
		Package: design.Package{Vessel: "bottle", VolumesCO2: 2.4, Primer: "table sugar", PrimerMoisturePct: 17.5,
			WarmestSinceC: 19, StoreC: 25, RatedVolumes: 3},
		Taste:   design.Taste{StrengthPct: ptr(5.2), Dryness: ptr(60), Body: ptr(40), Hold: []string{"honey.mass"}},
		Ghost:   &design.Ghost{Name: "as first drawn", Settings: map[string]any{"mash.rest.0.temperature_c": 64.0}},
		Reading: []design.Reading{{What: "original-gravity", At: time.Date(2026, 6, 20, 15, 40, 0, 0, time.UTC), Value: 1.0505, TemperatureC: 20, Instrument: "hydrometer"}},
	}
}

func example(t testing.TB) string {
	t.Helper()
	src, err := os.ReadFile("testdata/gate-field.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

func TestExampleReadsWhole(t *testing.T) {
	t.Parallel()
	doc, found := Parse("gate-field.toml", []byte(example(t)))
	if len(found) > 0 {
		t.Fatal(found)
	}
	if want := gateField(); !reflect.DeepEqual(doc.Design, want) {
		t.Errorf("got\n%+v\nwant\n%+v", doc.Design, want)
	}
}

const least = `format = 1
batch.into_fermenter_l = 15
mash.rest = [{ temperature_c = 66.5, minutes = 60 }]
grain = [{ mass_kg = 2.7, extract_pct = 80.5 }]
yeast = [{ attenuation_low_pct = 73, attenuation_high_pct = 78 }]
`

// The example shows the default of every number, word and switch, so a file of
// the required keys alone must give the same, without what may be absent.
func TestLeastFileHasDefaults(t *testing.T) {
	t.Parallel()
	doc, found := Parse("", []byte(least+"[crush]\n[water]\n[[honey]]\n[[hop]]\n"))
	if len(found) > 0 {
		t.Fatal(found)
	}
	want := gateField()
	want.Title, want.Taste, want.Ghost, want.Reading = "", design.Taste{}, nil, nil
	want.Crush.OnSievePct = nil
	want.Grain[0].Name, want.Yeast[0].Name, want.Honey[0].Name, want.Hop[0].Name = "", "", "", ""
	if !reflect.DeepEqual(doc.Design, want) {
		t.Errorf("got\n%+v\nwant\n%+v", doc.Design, want)
	}
	doc, _ = Parse("", []byte(least))
	if d := doc.Design; d.Crush != nil || d.Water != nil || d.Ghost != nil || d.Honey != nil || d.Hop != nil || d.Taste.Body != nil {
		t.Errorf("something absent came into being: %+v", d)
	}
}

// Every kind of finding, with its true line. Each case replaces one line of the
// example (found by its text) by others.
func TestFindings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, old, new string
		plus           int // lines from the replaced one to the finding
		sev            design.Severity
		want           string
	}{
		{"range", "temperature_c = 66.5", "temperature_c = 95", 0, design.Error, "mash.rest.0.temperature_c = 95 is outside 40 to 80 °C"},
		{"below", "into_fermenter_l = 15.0 ", "into_fermenter_l = -3 #", 0, design.Error, "batch.into_fermenter_l = -3 is outside 1 to 200 L"},
		{"nan", "moisture_pct = 17.5", "moisture_pct = nan", 0, design.Error, "honey.0.moisture_pct = nan is not a finite number, expected 10 to 30 %"},
		{"inf", "dryness = 60", "dryness = -inf", 0, design.Error, "taste.dryness = -inf is not a finite number, expected 0 to 100"},
		{"type in the first of several", "mass_kg = 0.55", "mass_kg = \"much\"\n[[honey]]\nmass_kg = 1\n[[honey]]", 0, design.Error, `honey.0.mass_kg is the text "much", expected a number (0 to 50 kg)`},
		{"type in the second", "raw = true", "[[honey]]\nname = \"Ivy\"\nraw = 1\n[[honey]]", 2, design.Error, "honey.1.raw is the number 1, expected true or false"},
		{"text", "title = \"Gate Field Midsummer\"", "title = 3", 0, design.Error, "title is the number 3, expected text in quotes"},
		{"table", "[water]", "[[water]]", 0, design.Error, "water is a list of tables, expected a table [water]"},
		{"list", "[[hop]]", "[hop]", 0, design.Error, "hop is a table, expected a list of tables [[hop]]"},
		{"time", "at = 2026-06-20T15:40:00Z", "at = 15:40:00", 0, design.Error, "reading.0.at is a date or time, expected a date and time such as 2026-06-20T15:40:00Z"},
		{"local time", "at = 2026-06-20T15:40:00Z", "at = 2026-06-20 15:40:00", 0, design.Warning, "reading.0.at has no offset and is taken as UTC; write one behind it, such as Z or +02:00"},
		{"word", "moment = \"fermenting\"", "moment = \"later\"", 0, design.Error, `honey.0.moment = "later" is not known, expected boil, whirlpool, pitching or fermenting`},
		{"unused hours", "moment = \"fermenting\"", "moment = \"boil\"", 1, design.Warning, `honey.0.hours_after_height is not used: it counts only with moment = "fermenting", and the moment is "boil"`},
		{"hold", "hold = [\"honey.mass\"]", "hold = [\"honey.colour\"]", 0, design.Error, `taste.hold = "honey.colour" is not known, expected mash.rest, mash.minutes, yeast, yeast.temperature, honey.mass, honey.moment, grain or primer`},
		{"sieve count", "on_sieve_pct = [27, 12, 28, 15, 4, 14] ", "on_sieve_pct = [50, 50] #", 0, design.Error, "crush.on_sieve_pct has 2 numbers, expected 6: on 1.27, 1.0, 0.6, 0.25, 0.15 mm, and through"},
		{"sieve sum", "on_sieve_pct = [27, 12, 28, 15, 4, 14] ", "on_sieve_pct = [27, 12, 28, 15, 4, 4] #", 0, design.Warning, "crush.on_sieve_pct sums to 90 %, expected about 100"},
		{"low above high", "attenuation_low_pct = 73", "attenuation_low_pct = 80", 0, design.Error, "yeast.0.attenuation_low_pct = 80 is above attenuation_high_pct = 78; the low one comes first"},
		{"missing", "extract_pct = 80.5", "# nothing", -3, design.Error, "grain.0.extract_pct is missing, expected 1 to 100 %: laboratory extract, fine grind, dry"},
		{"unknown key", "tap_c = 14", "tap_c = 14\nspare = 1", 1, design.Warning, "unknown key kit.spare; it is kept but not used"},
		{"near key", "tap_c = 14", "tapc = 14", 0, design.Warning, "unknown key kit.tapc; it is kept but not used; did you mean tap_c?"},
		{"case", "heater_w = 2000", "HEATER_W = 2000", 0, design.Warning, "unknown key kit.HEATER_W; it is kept but not used; keys are written in lower case: heater_w"},
		{"unknown table", "[boil]", "[cellar]\nx = 1\n[boil]", 0, design.Warning, "unknown key cellar; it is kept but not used"},
		{"newer", "format = 1", "format = 2", 0, design.Error, "format = 2 is newer than this Skep, which knows formats up to 1; the file can be looked at, not changed"},
		{"older", "format = 1", "format = 0", 0, design.Error, "format = 0, expected 1"},
		{"no format", "format = 1", "# format", -1, design.Error, "format is missing, expected 1: version of the file format"},
		{"reading range", "value = 1.0505", "value = 50.5", 0, design.Error, "reading.0.value = 50.5 is outside 0.95 to 1.25 SG (original-gravity by hydrometer)"},
		{"ghost", `settings = { "mash.rest.0.temperature_c" = 64.0 }`, "settings = { a = 1 }", 0, design.Warning, "ghost.settings: unknown key a; skep help design lists all; it is kept but not used"},
		{"ghost range", `settings = { "mash.rest.0.temperature_c" = 64.0 }`, "settings.mash.rest.0.temperature_c = 90", 0, design.Warning, "ghost.settings: mash.rest.0.temperature_c = 90 is outside 40 to 80 °C; it is kept but not used"},
		{"syntax", "tap_c = 14", "tap_c = ", 0, design.Error, "column 9: the value behind the = is missing"},
		{"string end", "name = \"Clean ale\"", "name = \"Clean ale", 0, design.Error, "column 18: the quotes are not closed on their line; a text of several lines stands between three quotes"},
		{"twice", "tap_c = 14", "tap_c = 14\ntap_c = 15", 1, design.Error, "column 1: kit.tap_c stands here a second time: take one of the two out"},
		{"huge", "tap_c = 14", "tap_c = 1e400", 0, design.Error, "column 9: 1e400 is too large a number"},
		{"depth", "tap_c = 14", "tap_c = " + strings.Repeat("[", 17), 0, design.Error, "nested deeper than 16 levels"},
		{"bytes", "tap_c = 14", "# \xff", 0, design.Error, "byte 0xFF is not UTF-8, expected a text file in UTF-8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			for _, eol := range []string{"\n", "\r\n"} {
				src := example(t)
				at := strings.Index(src, c.old)
				if at < 0 {
					t.Fatalf("the example has no %q", c.old)
				}
				line := strings.Count(src[:at], "\n") + 1 + c.plus
				src = strings.ReplaceAll(src[:at]+c.new+src[at+len(c.old):], "\n", eol)
				_, found := Parse("f.toml", []byte(src))
				want := fmt.Sprintf("f.toml:%d: %s", line, c.want)
				if len(found) != 1 || found[0].String() != want || found[0].Severity != c.sev {
					t.Errorf("got  %v\nwant %s: %s", found, c.sev, want)
				}
			}
		})
	}
}

// Columns count characters from 1 and point at the key.
func TestColumn(t *testing.T) {
	t.Parallel()
	_, found := Parse("f", []byte("\xef\xbb\xbf"+least+"hop = [{ name = 'Größe', mass_g = -1 }]\n"))
	if len(found) != 1 || found[0].Line != 6 || found[0].Col != 26 {
		t.Errorf("got %+v, want 6, 26", found)
	}
}

func TestMissingTables(t *testing.T) {
	t.Parallel()
	_, found := Parse("f", []byte("\n# nothing yet\n[mash]\n[[yeast]]\n"))
	var got []string
	for _, f := range found {
		got = append(got, f.String())
	}
	want := []string{
		"f:1: format is missing, expected 1: version of the file format",
		"f:1: batch.into_fermenter_l is missing, expected 1 to 200 L: cool wort run off into the fermenter",
		"f:1: [[grain]] is missing: a design needs at least one, with mass_kg and extract_pct",
		"f:3: [[mash.rest]] is missing: a design needs at least one, with temperature_c and minutes",
		"f:4: yeast.0.attenuation_low_pct is missing, expected 10 to 100 %: apparent, on the reference wort",
		"f:4: yeast.0.attenuation_high_pct is missing, expected 10 to 100 %: not below the low one",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// The decoder takes these although the standard (TOML 1.0, "Table") holds a
// table that dotted keys or a value made closed; the line index must refuse
// them with their line rather than lose a value.
func TestClosedTables(t *testing.T) {
	t.Parallel()
	for src, line := range map[string]int{"a.b.c = 1\na.b = 2\n": 2, "a = [{ b = 1 }]\n\n[[a]]\n": 3} {
		doc, found := Parse("f", []byte(src))
		if doc != nil || len(found) != 1 || found[0].Line != line || found[0].Severity != design.Error {
			t.Errorf("%q gave %v", src, found)
		}
	}
}

// An unknown key in each of several entries has its own line in each.
func TestUnknownInEach(t *testing.T) {
	t.Parallel()
	_, found := Parse("f", []byte(least+"[[honey]]\nbogus = 1\n[[honey]]\n\nbogus = 1\n[[mead]]\n[[mead]]\n"))
	var lines []int
	for _, f := range found {
		lines = append(lines, f.Line)
	}
	if !reflect.DeepEqual(lines, []int{7, 10, 11, 12}) {
		t.Errorf("got lines %v of %v", lines, found)
	}
}

func TestNewerFormatIsReadOnly(t *testing.T) {
	t.Parallel()
	doc, found := Parse("f", []byte(strings.Replace(example(t), "format = 1", "format = 9\nbrand_new = 1", 1)))
	if !design.HasErrors(found) || doc.ReadOnly == nil || doc.Design.Grain[0].MassKg != 2.7 {
		t.Errorf("%v %v", doc.ReadOnly, found)
	}
	if _, err := doc.Write(gateField()); err == nil || err.Error() != doc.ReadOnly.Error() {
		t.Errorf("written: %v", err)
	}
}

func TestTooLarge(t *testing.T) {
	t.Parallel()
	doc, found := Parse("f", make([]byte, sizeLimit+1))
	if doc != nil || len(found) != 1 || found[0].Message.String() != "the file has 1048577 bytes, a design has at most 1048576" {
		t.Errorf("%v", found)
	}
}

// No file within the size limit may take long, whatever is in it.
func TestHostileFilesAreQuick(t *testing.T) {
	t.Parallel()
	fill := func(s string) string { return strings.Repeat(s, sizeLimit/len(s)) }
	var keys, deep strings.Builder
	for i := 0; keys.Len() < sizeLimit-20; i++ {
		fmt.Fprintf(&keys, "k%d=1\n", i)
	}
	for i := 0; deep.Len() < sizeLimit-60; i++ {
		fmt.Fprintf(&deep, "a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.k%d=1\n", i)
	}
	for name, src := range map[string]string{
		"brackets": fill("["), "braces": "a=" + fill("{a=")[:1<<19], "dots": fill("a."), "tables": fill("[[a]]\n"),
		"strings": "a='''" + fill("''")[:1<<19], "comments": fill("#\n"), "keys": keys.String(), "deep": deep.String(),
		"list": "a=[" + fill("1,")[:1<<19] + "]", "yeast": least + fill("[[honey]]\n")[:1<<19], "one line": "crush={" + strings.ReplaceAll(keys.String(), "\n", ",")[:1<<19] + "z=1}", "zeros": fill("\x00"), "backslashes": `a="` + fill(`\`)[:1<<19],
	} {
		start := time.Now()
		Parse("f", []byte(src))
		if d := time.Since(start); d > 10*time.Second { // about 100 times what it takes
			t.Errorf("%s took %v", name, d)
		} else {
			t.Logf("%s took %v", name, d)
		}
	}
}

func TestValidateWithoutSource(t *testing.T) {
	t.Parallel()
	d := gateField()
	if f := d.Validate(); len(f) > 0 {
		t.Error(f)
	}
	d.Yeast = nil
	d.Mash.Rest[0].Minutes = math.Inf(1)
	var got []string
	for _, f := range d.Validate() {
		got = append(got, f.String())
	}
	want := []string{"mash.rest.0.minutes = inf is not a finite number, expected 1 to 240 min",
		"[[yeast]] is missing: a design needs at least one, with attenuation_low_pct and attenuation_high_pct"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %q", got)
	}
}
