package record_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/mash"
	"skep/calc/record"
)

var update = flag.Bool("update", false, "write calc/VALIDATION.md")

const page = "../VALIDATION.md"

// section is one table of the page.
type section struct {
	title, about string
	rows         []record.Row
}

// compared are the rows of testdata/FIELD/rows.csv with ours beside them.
func compared(t *testing.T, field string, by map[string]func(record.Given) float64) []record.Row {
	t.Helper()
	return comparedFile(t, field+"/rows.csv", by)
}

func comparedFile(t *testing.T, file string, by map[string]func(record.Given) float64) []record.Row {
	t.Helper()
	rows, err := record.Read("../../testdata/" + file)
	if err == nil {
		rows, err = record.Compare(rows, by)
	}
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func sections(t *testing.T) []section {
	t.Helper()
	var beers []record.Row
	for _, h := range wholeBeers(t) {
		beers = append(beers, h.asRow())
	}
	beers = append(beers, comparedFile(t, "beers/mixtures.csv", mixtures())...)
	return []section{
		{"Density and extract", "Packages `density`, `units`; rows: `testdata/density`.", compared(t, "density", densities())},
		{"Alcohol, attenuation, energy", "Package `alcohol`; rows: `testdata/alcohol`.", compared(t, "alcohol", alcohols())},
		{"Honey", "Package `honey`; rows: `testdata/honey`.", compared(t, "honey", honeys())},
		{"The mash", "Package `mash`; rows and what is fitted: `testdata/mash/rows.csv`.", compared(t, "mash", mashes(mash.Committed()))},
		{"The fermentation", "Package `ferment`; rows and what is fitted: `testdata/ferment`.", append(append(fermentRows(t), timeRows(t)...), cooled(t)...)},
		{"Limits of the yeast", "Packages `stress`, `ferment`; rows: `testdata/yeast`.", compared(t, "yeast", yeasts())},
		{"Whole beers", "The engine with its bands, and mixtures of malt and honey; rows: `testdata/beers`. Here \"agrees\" means that the 10 to 90 band holds the measured value.", beers},
		{"Water and heat", "Package `water`; rows: `testdata/water`.", compared(t, "water", waters())},
		{"Boil, bitterness, cooling", "Package `boil`; rows: `testdata/boil`.", compared(t, "boil", boils())},
		{"Colour", "Package `colour`; rows: `testdata/colour`.", compared(t, "colour", colours())},
		{"Carbon dioxide", "Package `carbonation`; rows: `testdata/carbonation`.", compared(t, "carbonation", carbonations())},
		{"Packaging", "Packages `packaging`, `carbonation`.", packagings()},
		{"The cold side", "Package `coldside`.", coldSide()},
		{"Tasting", "Two glasses and triangles: nothing in the program asks for them yet, the formulas stand beside the rows. Body: package `taste`.", tastings()},
	}
}

// The page is what the checks give now. With -update it is written anew.
func TestValidationIsCurrent(t *testing.T) {
	t.Parallel()
	all := sections(t)
	want := render(t, all)
	if *update {
		if err := os.WriteFile(page, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(page)
	if err != nil {
		t.Fatalf("%v: write it with go test -tags ci ./calc/record -update", err)
	}
	if string(got) != want {
		t.Errorf("calc/VALIDATION.md is stale, first at %s: look at the difference, then write it with go test -tags ci ./calc/record -update", firstDifference(string(got), want))
	}
}

// No miss without a word why, and not one number that is none.
func TestEveryMissSaysWhy(t *testing.T) {
	t.Parallel()
	rows := 0
	for _, s := range sections(t) {
		for _, r := range s.rows {
			rows++
			if r.Verdict == "fitted" && s.title != "The mash" && s.title != "The fermentation" && math.Abs(r.Difference()) > r.Tolerance {
				t.Errorf("%s: fitted, yet ours %v is further than %v from %v", r.Quantity, r.Ours, r.Tolerance, r.Published)
			}
			if r.Judge() == "misses" && r.Why == "" {
				t.Errorf("%s: ours %v, published %v (%s), and no reason", r.Quantity, r.Ours, r.Published, r.Source)
			}
			if math.IsNaN(r.Ours) || math.IsNaN(r.Published) || r.Source == "" {
				t.Errorf("%s: published %v, ours %v, source %q", r.Quantity, r.Published, r.Ours, r.Source)
			}
		}
	}
	if rows < 300 {
		t.Errorf("only %d rows: a part of the record is missing", rows)
	}
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range x {
		if i >= len(y) || x[i] != y[i] {
			return fmt.Sprintf("line %d, %q", i+1, x[i])
		}
	}
	return "the end"
}

func render(t *testing.T, all []section) string {
	t.Helper()
	var b strings.Builder
	b.WriteString(intro)
	b.WriteString("\n## Summary\n\n| section | rows | agree | fitted | miss |\n| --- | ---: | ---: | ---: | ---: |\n")
	var total [4]int
	for _, s := range all {
		n := tally(s.rows)
		fmt.Fprintf(&b, "| [%s](#%s) | %d | %d | %d | %d |\n", s.title, anchor(s.title), n[0], n[1], n[2], n[3])
		for i := range total {
			total[i] += n[i]
		}
	}
	fmt.Fprintf(&b, "| all | %d | %d | %d | %d |\n", total[0], total[1], total[2], total[3])
	coverage(t, &b)
	studied(t, &b)
	convergence(t, &b)
	b.WriteString(wanted)
	b.WriteString(stays)
	b.WriteString("\n## What we miss, and why\n\n")
	for _, s := range all {
		for _, r := range s.rows {
			if r.Judge() == "misses" {
				fmt.Fprintf(&b, "- **%s** (%s): published %s %s, ours %s. %s.\n", clean(r.Quantity), s.title, number(r.Published, r.Unit), r.Unit, number(r.Ours, r.Unit), sentence(r.Why))
			}
		}
	}
	for _, s := range all {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\n| quantity | published | ours | difference | unit | verdict | source |\n| --- | ---: | ---: | ---: | --- | --- | --- |\n", s.title, s.about)
		for _, r := range s.rows {
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s | %s |\n", clean(r.Quantity), number(r.Published, r.Unit), number(r.Ours, r.Unit), difference(r), clean(r.Unit), r.Judge(), clean(r.Source))
		}
	}
	return b.String()
}

// tally counts rows, and of them those that agree, are fitted, miss.
func tally(rows []record.Row) [4]int {
	n := [4]int{len(rows)}
	for _, r := range rows {
		switch r.Judge() {
		case "agrees":
			n[1]++
		case "misses":
			n[3]++
		default:
			n[2]++
		}
	}
	return n
}

func coverage(t *testing.T, b *strings.Builder) {
	t.Helper()
	var names []string
	groups := map[string][]held{}
	rows := wholeBeers(t)
	for _, r := range rows {
		if groups[r.Compare] == nil {
			names = append(names, r.Compare)
		}
		groups[r.Compare] = append(groups[r.Compare], r)
	}
	b.WriteString(doubts)
	b.WriteString("\n| measured | held by the 10 to 90 band | of | share |\n| --- | ---: | ---: | ---: |\n")
	line := func(name string, rows []held) {
		inside, of := heldCount(rows)
		fmt.Fprintf(b, "| %s | %d | %d | %.0f %% |\n", name, inside, of, 100*float64(inside)/float64(of))
	}
	for _, name := range names {
		line(name, groups[name])
	}
	line("all", rows)
}

// studied is the long study of package follow, as it was written down.
func studied(t *testing.T, b *strings.Builder) {
	t.Helper()
	src, err := os.ReadFile("../../testdata/follow/study.csv")
	if err != nil {
		t.Fatal(err)
	}
	b.WriteString(study)
	for i, line := range strings.Split(strings.TrimSpace(string(src)), "\n") {
		f := strings.Split(line, ",")
		if len(f) != 4 {
			t.Fatalf("testdata/follow/study.csv:%d: %q has not four columns", i+1, line)
		}
		if i > 0 {
			fmt.Fprintf(b, "| %s | %s | %s %% | %s |\n", f[0], f[1], f[2], f[3])
		}
	}
}

// convergence shows how the bands of the middle demo settle with the draws.
func convergence(t *testing.T, b *strings.Builder) {
	t.Helper()
	d := demotest.Design(t, "gate-field-middle.toml")
	d.Yeast = d.Yeast[:1]
	fmt.Fprintf(b, "\nHow the bands settle, on the middle demo design (10th, 50th, 90th percentile; %d draws are in use):\n\n| draws | final gravity | strength, %% | dryness | body |\n| ---: | --- | --- | --- | --- |\n", calc.Draws)
	for n := 64; n <= 16384; n *= 4 {
		all, err := calc.NewEngineDraws(n).Strains(d)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(b, "| %d |", n)
		for o, form := range [calc.Outcomes]string{calc.FinalGravity: "%.5f", calc.Strength: "%.3f", calc.Dryness: "%.2f", calc.Body: "%.2f"} {
			band := all[0][o]
			fmt.Fprintf(b, " "+form+" "+form+" "+form+" |", band.Low, band.Mid, band.High)
		}
		b.WriteString("\n")
	}
}

// number has four figures, gravities five decimals.
func number(v float64, unit string) string {
	if unit == "SG" {
		return fmt.Sprintf("%.5f", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// difference has two figures; less than a billionth of the value is none.
func difference(r record.Row) string {
	if math.Abs(r.Difference()) <= 1e-9*math.Max(math.Abs(r.Published), math.Abs(r.Ours)) {
		return "0"
	}
	return fmt.Sprintf("%+.2g", r.Difference())
}

func clean(s string) string { return strings.ReplaceAll(strings.ReplaceAll(s, "|", "/"), "\n", " ") }

func sentence(s string) string {
	s = strings.TrimSuffix(clean(s), ".")
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func anchor(title string) string {
	return strings.ReplaceAll(strings.ReplaceAll(strings.ToLower(title), ",", ""), " ", "-")
}
