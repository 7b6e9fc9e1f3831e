package paper_test

import (
	"bytes"
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"skep/app/paper"
	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/quantity"
	"skep/plotting/sheet"
)

var update = flag.Bool("update", false, "write the golden sheets anew")

func text(t testing.TB, d design.Design, o paper.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := paper.Text(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func printed(t testing.TB, d design.Design, o paper.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := paper.PDF(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// programmed is the middle design with a temperature programme: a rest for diacetyl
// late in the fermentation, and a cold crash.
func programmed(t testing.TB) design.Design {
	t.Helper()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Title = "Gate Field Midsummer, rested and crashed"
	d.Temperature = []design.TemperatureStep{{AtAttenuationPct: 80, TemperatureC: 22}, {AtHours: 240, TemperatureC: 3}}
	return d
}

// TestGolden: the three sheets as text, and one with a temperature programme. Run
// with -update after a change that is meant, and read the difference.
func TestGolden(t *testing.T) {
	t.Parallel()
	for _, name := range append(assets.Demos(), "programme.toml") {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := programmed(t)
			if name != "programme.toml" {
				d = demotest.Design(t, name)
			}
			got := text(t, d, paper.Options{Yeasts: true})
			file := filepath.Join("testdata", strings.TrimSuffix(name, ".toml")+".txt")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
			for i := range max(len(g), len(w)) {
				if i >= len(g) || i >= len(w) || g[i] != w[i] {
					t.Fatalf("%s:%d differs (-update after reading why):\n%s", file, i+1, strings.Join(g[i:min(i+3, len(g))], "\n"))
				}
			}
		})
	}
}

// TestPages: every demo is on two pages, on both papers, says who it is, and
// its bytes are the same the next time.
func TestPages(t *testing.T) {
	t.Parallel()
	for _, name := range assets.Demos() {
		for _, p := range []sheet.Paper{sheet.A4, sheet.Letter} {
			t.Run(name+" "+p.Name, func(t *testing.T) {
				t.Parallel()
				d := demotest.Design(t, name)
				first := printed(t, d, paper.Options{Paper: p})
				if !bytes.Equal(first, printed(t, d, paper.Options{Paper: p})) {
					t.Error("the bytes differ from one time to the next")
				}
				r := read(t, first)
				if n := r.NumPage(); n != 2 {
					t.Errorf("%d pages, want 2", n)
				}
				if got := r.Trailer().Key("Info").Key("Title").Text(); got != d.Title {
					t.Errorf("title %q", got)
				}
				if got := r.Trailer().Key("Root").Key("Lang").Text(); got != "en" {
					t.Errorf("language %q", got)
				}
				if n := len(r.Outline().Child); n != 13 { // the list, and twelve steps
					t.Errorf("%d bookmarks, want 13", n)
				}
				box := r.Page(1).V.Key("MediaBox")
				if box.Len() == 0 {
					box = r.Trailer().Key("Root").Key("Pages").Key("MediaBox")
				}
				if w, h := box.Index(2).Float64(), box.Index(3).Float64(); w < p.Width-0.1 || w > p.Width+0.1 || h < p.Height-0.1 || h > p.Height+0.1 {
					t.Errorf("paper of %v by %v", w, h)
				}
				inside(t, r, p)
			})
		}
	}
}

func squeeze(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '\u00a0' || r == '\n' {
			return -1
		}
		return r
	}, s)
}

// TestHard: a name of two hundred letters with umlauts, a degree sign, a
// subscript and letters the typeface lacks, many hops, several rests: nothing
// leaves the page, and what can be written is there to be read.
func TestHard(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Title = "Gärfeld’s Mittsommer – CO₂ bei 20 °C 蜂蜜 " + strings.Repeat("Überlänge", 10) + " " + strings.Repeat("ein Wort ", 8)
	d.Grain[0].Name = strings.Repeat("Malz", 40)
	d.Honey[0].Name = "Lindenblüte\tund\n" + strings.Repeat("Weißklee ", 12)
	d.Yeast[0].Name = strings.Repeat("Hefe ", 30)
	d.Ghost.Name = strings.Repeat("Geist ", 60)
	for i := range 12 {
		d.Hop = append(d.Hop, design.Hop{Name: strings.Repeat("Hopfen", 6), AlphaPct: 5, MassG: 20, When: "boil", Minutes: float64(5 * i)})
	}
	d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 72, Minutes: 20}, design.Rest{TemperatureC: 78, Minutes: 5})
	for _, p := range []sheet.Paper{sheet.A4, sheet.Letter} {
		b := printed(t, d, paper.Options{Paper: p, Yeasts: true})
		inside(t, read(t, b), p)
		all := letters(t, b)
		for _, want := range []string{"Gärfeld’sMittsommer–CO₂bei20°C□□", "LindenblüteundWeißklee", "66.5°C"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: %q can't be read", p.Name, want)
			}
		}
	}
}

// TestSame: what the text says to do, to weigh and to beware of, the page says
// too.
func TestSame(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Water = &design.Water{Bicarbonate: 120, GypsumG: 2}
	c, err := paper.Content(d, paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.PDF(&b, c, sheet.A4); err != nil {
		t.Fatal(err)
	}
	page := letters(t, b.Bytes())
	plain := squeeze(text(t, d, paper.Options{}))
	count := 0
	has := func(what string) {
		count++
		if !strings.Contains(page, squeeze(what)) {
			t.Errorf("the page does not say %q", what)
		}
		if !strings.Contains(plain, squeeze(what)) {
			t.Errorf("the text does not say %q", what)
		}
	}
	for _, i := range c.Day.Shopping {
		has(i.Name.String())
	}
	for _, s := range c.Day.Steps {
		has(s.Title.String())
		for _, x := range s.Do {
			has(x.In(c.Format.Translate, nil))
		}
		for _, w := range s.Warnings {
			has(w.In(c.Format.Translate, nil))
		}
		for _, x := range s.Cautions {
			has(x.In(c.Format.Translate, nil))
		}
		for _, x := range s.Blanks {
			has(x.Label.String())
		}
	}
	if count < 60 {
		t.Errorf("only %d things compared", count)
	}
}

// TestUnits: the person's units, through and through.
func TestUnits(t *testing.T) {
	t.Parallel()
	us := quantity.Units{Temperature: quantity.F, Gravity: quantity.Plato, Volume: quantity.USGallon, Mass: quantity.Lb, Colour: quantity.SRM}
	got := text(t, demotest.Design(t, assets.DemoMiddle), paper.Options{Units: us})
	for _, want := range []string{"3.96 gal into the fermenter", "°P", "SRM", "151.7 °F", "1 lb 3.5 oz", "fl oz", "psi"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, not := range []string{"°C", " kg", " EBC", "1.040", " mL", " L "} {
		if strings.Contains(got, not) {
			t.Errorf("still %q", not)
		}
	}
	if regexp.MustCompile(`\bbar\b`).MatchString(got) { // barley may stand there
		t.Error("still bar")
	}
}

// TestTaught: who prints with what batches have taught reads so, on paper and as
// text; who does not, does not. The curve has the yeast's own clock.
func TestTaught(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	for batches, want := range []string{"taught", "one finished batch has taught", "2 finished batches have taught"} {
		o := paper.Options{Batches: batches}
		is := batches > 0
		if got := strings.Contains(strings.Join(strings.Fields(text(t, d, o)), " "), want); got != is {
			t.Errorf("%d batches: the text says %q: %v", batches, want, got)
		}
		on := false
		for _, w := range words(t, read(t, printed(t, d, o)).Page(1)) {
			on = on || strings.Contains(w.text, want)
		}
		if on != is {
			t.Errorf("%d batches: the page says %q: %v", batches, want, on)
		}
	}
	late := func(x calc.Doubts) float64 {
		plain := d.Clone()
		plain.Honey = nil // it goes in so many hours after the height, whatever the pace
		c, err := paper.Content(plain, paper.Options{Doubts: x})
		if err != nil {
			t.Fatal(err)
		}
		for k, b := range c.Course.GravitySG {
			if b.Mid < 1.030 {
				return c.Course.Hours[k]
			}
		}
		t.Fatal("it never gets there")
		return 0
	}
	slow := calc.Doubts{Clocks: []calc.Clock{{LagHours: 2 * ferment.UsualLagHours, RateFactor: 0.5}}}
	if a, b := late(calc.Doubts{}), late(slow); math.Abs(b/a-2) > 0.1 {
		t.Errorf("half as fast, and 1.030 is passed after %v h, %v h before", b, a)
	}
}

// TestPdftotext: another reader finds the text too.
func TestPdftotext(t *testing.T) {
	t.Parallel()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext of poppler-utils is not installed")
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, printed(t, demotest.Design(t, assets.DemoMiddle), paper.Options{}), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, file, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, want := range []string{"Gate Field Midsummer", "To buy and weigh", "Mash-in", "honey window", "66.5 °C", "page 2 of 2"} {
		if !strings.Contains(strings.ReplaceAll(string(out), "\u00a0", " "), want) {
			t.Errorf("no %q", want)
		}
	}
}

// TestRefused: a design the engine refuses gives its reason and no sheet.
func TestRefused(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Hop[0].AlphaPct = 40
	var b bytes.Buffer
	if err := paper.PDF(&b, d, paper.Options{}); err == nil || !strings.Contains(err.Error(), "alpha_pct") || b.Len() > 0 {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
}
