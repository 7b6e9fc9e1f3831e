package assets

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"skep/calc/design"
	"skep/calc/design/file"
)

func load(t *testing.T) Catalogue {
	t.Helper()
	c, err := LoadCatalogue()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Extract of a malt, % dry fine grind: J. Palmer, How to Brew, table 9
// (howtobrew.com/section2/chapter12-4-1.html), "max yield", read.
func TestGrainAgreesWithPublishedExtract(t *testing.T) {
	t.Parallel()
	published := map[string]float64{
		"Lager malt": 80, "Pale malt": 81, "Six-row malt": 76,
		"Vienna malt": 75, "Munich malt": 75, "Biscuit malt": 75,
		"Crystal malt, pale, 10 to 15 °L": 75, "Crystal malt, medium, 25 to 40 °L": 74,
		"Crystal malt, dark, 60 to 75 °L": 74, "Crystal malt, very dark, 120 °L": 72,
		"Wheat malt": 79, "Flaked wheat": 77, "Flaked oats": 70, "Flaked barley": 70,
		"Rye malt": 63, "Chocolate malt": 60, "Roast barley": 55, "Black malt": 55,
		"Table sugar": 100, "Dextrose": 100,
	}
	for _, g := range load(t).Grain {
		want, ok := published[g.Name]
		if !ok && !strings.Contains(g.Source, "Palmer") {
			continue // the trade's own figure, and its source says so
		}
		if !ok {
			t.Errorf("%s claims a published extract that this test does not know", g.Name)
		} else if g.ExtractPct != want {
			t.Errorf("%s has extract %v, published %v", g.Name, g.ExtractPct, want)
		}
		delete(published, g.Name)
	}
	for name := range published {
		t.Errorf("%s is published and missing", name)
	}
}

// The same source's second column, points·US gal/lb, against the first, by the
// customary 46.21 points for pure extract (385.6 points·L/kg). The source rounds
// both columns: half a point, and half a per cent (0.23 points), is the tolerance.
func TestExtractAgreesWithPoints(t *testing.T) {
	t.Parallel()
	points := map[string]float64{
		"Lager malt": 37, "Pale malt": 38, "Six-row malt": 35, "Vienna malt": 35,
		"Crystal malt, medium, 25 to 40 °L": 34, "Crystal malt, very dark, 120 °L": 33,
		"Wheat malt": 37, "Flaked wheat": 36, "Flaked oats": 32, "Rye malt": 29,
		"Chocolate malt": 28, "Black malt": 25, "Table sugar": 46,
	}
	for _, g := range load(t).Grain {
		want, ok := points[g.Name]
		if !ok {
			continue
		}
		if got := g.ExtractPct / 100 * 46.21; math.Abs(got-want) > 0.75 {
			t.Errorf("%s: %v %% makes %.2f points, published %v", g.Name, g.ExtractPct, got, want)
		}
	}
}

func TestYeastFamilies(t *testing.T) {
	t.Parallel()
	// Apparent attenuation of the families on the reference wort: common
	// practice, no source, but for the strains without maltotriose, 65 to 75 %
	// (abstracts, read).
	want := map[string][2]float64{
		"English ale": {65, 74}, "Clean ale": {73, 79}, "Kölsch": {75, 82}, "Lager": {75, 82},
		"Belgian abbey": {76, 85}, "Saison, diastatic": {85, 95}, "Wine": {60, 72},
		"No-maltotriose ale": {65, 75},
	}
	for _, y := range load(t).Yeast {
		if w, ok := want[y.Name]; ok && w != [2]float64{y.AttenuationLowPct, y.AttenuationHighPct} {
			t.Errorf("%s attenuates %v to %v, want %v", y.Name, y.AttenuationLowPct, y.AttenuationHighPct, w)
		}
		delete(want, y.Name)
		if y.EatsDextrin != strings.HasSuffix(y.Name, ", diastatic") {
			t.Errorf("%s: eats_dextrin is %v", y.Name, y.EatsDextrin)
		}
		// G. Fix, Analysis of Brewing Techniques: 0.75 (ale) and 1.5 (lager)
		// million cells a mL and °P; the catalogue has it for 12 °P.
		per := 0.75
		if strings.Contains(strings.ToLower(y.Name), "lager") {
			per = 1.5
		}
		if y.CellsBillionPerL != per*12 {
			t.Errorf("%s: %v billion cells a litre, want %v", y.Name, y.CellsBillionPerL, per*12)
		}
	}
	for name := range want {
		t.Errorf("%s is missing", name)
	}
}

// Water in honey: White 1962, 490 honeys, mean 17.2, 13.4 to 22.9 %; EU
// 2001/110 allows 20 %, heather 23 %.
func TestHoneyMoisture(t *testing.T) {
	t.Parallel()
	for _, h := range load(t).Honey {
		most := 20.0
		if strings.HasPrefix(h.Name, "Heather") {
			most = 23
		}
		if h.MoisturePct < 13.4 || h.MoisturePct > most {
			t.Errorf("%s has %v %% of water, want 13.4 to %v", h.Name, h.MoisturePct, most)
		}
		if h.Name == "Wildflower" && h.MoisturePct != 17.2 {
			t.Errorf("wildflower is to be White's mean, 17.2, not %v", h.MoisturePct)
		}
	}
}

// Every entry has a name of its own, a note, a source that says whether it was
// read or is common practice, and values that a design takes.
func TestEntriesAreWhole(t *testing.T) {
	t.Parallel()
	c := load(t)
	seen := map[string]bool{}
	whole := func(kind, name string, o Origin) {
		t.Helper()
		if name == "" || seen[kind+name] {
			t.Errorf("%s %q: no name or twice", kind, name)
		}
		seen[kind+name] = true
		if o.Note == "" || !strings.Contains(o.Source, "(read)") && !strings.Contains(o.Source, "common practice, no source") {
			t.Errorf("%s %s: note %q, source %q", kind, name, o.Note, o.Source)
		}
	}
	// A design for each entry: no brew has them all.
	valid := func(change func(d *design.Design)) {
		t.Helper()
		d := design.New()
		d.Mash.Rest = []design.Rest{design.NewRest()}
		d.Grain, d.Yeast = []design.Grain{c.Grain[0].Grain}, []design.Yeast{c.Yeast[0].Yeast}
		d.Grain[0].MassKg = 1
		change(&d)
		for _, f := range d.Validate() {
			if f.Severity == design.Error {
				t.Errorf("a design of it: %s", f.Message)
			}
		}
	}
	for _, g := range c.Grain {
		whole("grain", g.Name, g.Origin)
		g.Grain.MassKg = 1
		valid(func(d *design.Design) { d.Grain = append(d.Grain, g.Grain) })
	}
	for _, y := range c.Yeast {
		whole("yeast", y.Name, y.Origin)
		valid(func(d *design.Design) { d.Yeast = append(d.Yeast, y.Yeast) })
	}
	for _, h := range c.Honey {
		whole("honey", h.Name, h.Origin)
		valid(func(d *design.Design) { d.Honey = append(d.Honey, h.Honey) })
	}
	for _, h := range c.Hop {
		whole("hop", h.Name, h.Origin)
		valid(func(d *design.Design) { d.Hop = append(d.Hop, h.Hop) })
	}
}

func TestParseCatalogueRefuses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ src, says string }{
		{"[[hop]]\nname = \"x\"\nalpha = 5\n", "unknown key hop.alpha"},
		{"[[hop]\n", "own.toml"},
	} {
		if _, err := parseCatalogue("own.toml", []byte(c.src)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want %q", c.src, err, c.says)
		}
	}
}

// The demonstration designs are clean, and three different beers.
func TestDemos(t *testing.T) {
	t.Parallel()
	titles := map[string]bool{}
	for _, name := range Demos() {
		src, err := Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		doc, findings := file.Parse(name, src)
		if len(findings) > 0 {
			t.Fatalf("%s: %v", name, findings)
		}
		titles[doc.Design.Title] = true
		if got := doc.Design.Batch.IntoFermenterL; got != 15 {
			t.Errorf("%s brews %v litres", name, got)
		}
	}
	if !titles["Gate Field Midsummer"] || len(titles) != 3 {
		t.Errorf("titles: %v", titles)
	}
	if _, err := Demo("none.toml"); err == nil {
		t.Error("a demonstration design that is not there was handed out")
	}
}

func TestIcon(t *testing.T) {
	t.Parallel()
	img, err := png.Decode(bytes.NewReader(IconPNG))
	if err != nil {
		t.Fatal(err)
	}
	if b := img.Bounds(); b.Dx() != 512 || b.Dy() != 512 {
		t.Errorf("the icon is %v", b)
	}
	if _, _, _, a := img.At(256, 256).RGBA(); a == 0 {
		t.Error("the icon is empty in its middle")
	}
	if _, _, _, a := img.At(2, 2).RGBA(); a != 0 {
		t.Error("the icon's corner is not clear")
	}
	if !bytes.Contains(IconSVG, []byte("<svg")) {
		t.Error("icon.svg is no SVG")
	}
}

// What a brewer of honey beer finds without typing it in.
func TestCatalogueIsLargeEnough(t *testing.T) {
	t.Parallel()
	c := load(t)
	for _, k := range []struct {
		kind       string
		have, want int
	}{{"malts and sugars", len(c.Grain), 40}, {"hops", len(c.Hop), 40}, {"strains", len(c.Yeast), 30}, {"honeys", len(c.Honey), 15}} {
		if k.have < k.want {
			t.Errorf("%d %s, want %d at least", k.have, k.kind, k.want)
		}
	}
}
