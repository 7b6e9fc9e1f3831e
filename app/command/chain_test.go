package command

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"
	"unicode"

	"skep/assets"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/design/file"
)

// hostile are texts that a name in somebody else's design may be.
var hostile = []string{
	"=HYPERLINK(\"http://a\",\"b\")", "+1+1", "-2+3", "@SUM(A1)", "\x1b]0;owned\x07", "\u009b31m", "a\tb\nc", "<svg onload=x>&\"'", "]]>", "\u202egpj.exe", " =1", "'=1", "plain", "",
}

// anyDesign draws a design over the whole of what the file allows: a club's one with
// some keys moved anywhere in their range, at its ends more often than between, lists
// made longer and shorter, and names that somebody else wrote.
func anyDesign(r *rand.Rand) (design.Design, error) {
	names := assets.Demos()
	src, err := assets.Demo(names[r.IntN(len(names))])
	if err != nil {
		return design.Design{}, err
	}
	doc, _ := file.Parse("demo", src)
	d := doc.Design
	d.Title, d.Notes = hostile[r.IntN(len(hostile))], hostile[r.IntN(len(hostile))]
	if d.Water == nil && r.IntN(2) == 0 {
		d.Water = design.NewWater()
	}
	for range r.IntN(3) {
		d.Honey = append(d.Honey, design.NewHoney())
	}
	if r.IntN(4) == 0 {
		d.Honey = nil
	}
	if r.IntN(4) == 0 {
		d.Mash.Rest = append(d.Mash.Rest, design.NewRest())
	}
	for i := range d.Yeast {
		d.Yeast[i].Name = hostile[r.IntN(len(hostile))]
	}
	var numbers []design.Key
	for _, k := range design.Keys() {
		table, _, _ := strings.Cut(k.Path, ".")
		if k.Kind == design.Number && table != "reading" && table != "temperature" || k.Kind == design.Word || k.Kind == design.Switch {
			numbers = append(numbers, k)
		}
	}
	for range r.IntN(12) {
		k := numbers[r.IntN(len(numbers))]
		path := strings.ReplaceAll(k.Path, ".N.", fmt.Sprintf(".%d.", r.IntN(2)))
		value := ""
		switch k.Kind {
		case design.Word:
			if k.Path == "reading.N.what" || len(k.Words) == 0 {
				continue
			}
			value = k.Words[r.IntN(len(k.Words))]
		case design.Switch:
			value = strconv.FormatBool(r.IntN(2) == 0)
		default:
			v := k.Min + (k.Max-k.Min)*r.Float64()
			switch r.IntN(5) {
			case 0:
				v = k.Min
			case 1:
				v = k.Max
			case 2: // near the lower end, where most quantities live
				v = k.Min + (k.Max-k.Min)*math.Pow(r.Float64(), 4)
			}
			value = strconv.FormatFloat(v, 'g', 6, 64)
		}
		_ = d.Set(path, value) // one that is not there, or not allowed, stays as it was
	}
	return d, nil
}

// asked runs a command in memory.
func asked(src []byte, args ...string) (out, says string, code int) {
	var o, e bytes.Buffer
	todo := Run(args, Streams{In: bytes.NewReader(src), Out: &o, Err: &e})
	return o.String(), e.String(), todo.Code
}

// chain takes one design through the whole of the program, and holds what comes out
// against what no beer can be.
func chain(t *testing.T, seed uint64) {
	r := rand.New(rand.NewPCG(seed, 17))
	d, err := anyDesign(r)
	if err != nil {
		t.Fatal(err)
	}
	src, err := file.Encode(d)
	if err != nil {
		return // a text that no file can hold
	}
	found, _, checked := asked(src, "check", "-", "--json")
	out, says, code := asked(src, "predict", "-", "--json", "--plan")
	if (checked == Done) != (code == Done) {
		t.Fatalf("seed %d: check ends with %d, predict with %d: %s%s\n%s", seed, checked, code, found, says, src)
	}
	if !harmless(says) {
		t.Errorf("seed %d: standard error has what a terminal obeys: %q", seed, says)
	}
	if code != Done {
		sane(t, seed, found)
		return
	}
	var p map[string]any
	if err := json.Unmarshal([]byte(out), &p); err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	bounds(t, seed, p)
	if r.IntN(4) > 0 {
		return // what follows takes longer
	}
	for _, args := range [][]string{{"course", "-", "--csv"}, {"compare", "-", "--csv"}, {"sweep", "-", "mash.rest.0.minutes", "30", "60", "2", "--csv"}} {
		text, says, code := asked(src, args...)
		if code != Done {
			t.Errorf("seed %d: predict takes it, %s does not: %s", seed, args[0], says)
			continue
		}
		cells(t, seed, text)
	}
	if text, _, code := asked(src, "predict", "-"); code != Done || !harmless(text) {
		t.Errorf("seed %d: exit %d, or the table has what a terminal obeys", seed, code)
	}
}

// harmless tells whether a terminal shows a text and obeys nothing of it.
func harmless(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' })
}

// sane holds a refusal to what a person can read: no number with more digits than
// anybody measures, none of Go's own words.
func sane(t *testing.T, seed uint64, found string) {
	t.Helper()
	var c struct {
		Findings []struct {
			Line     int
			Severity string
			Message  string
		}
	}
	if err := json.Unmarshal([]byte(found), &c); err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	for _, f := range c.Findings {
		if f.Severity != "error" {
			continue
		}
		if f.Line < 1 {
			t.Errorf("seed %d: no line: %s", seed, f.Message)
		}
		for _, odd := range []string{"NaN", "Inf", "e+", "goroutine", "nil", "0x", "%!"} {
			if strings.Contains(f.Message, odd) {
				t.Errorf("seed %d: %q in %s", seed, odd, f.Message)
			}
		}
		for word := range strings.FieldsSeq(f.Message) {
			if digits := strings.Count(strings.Map(func(r rune) rune {
				if unicode.IsDigit(r) {
					return '0'
				}
				return r
			}, word), "0"); digits > 9 {
				t.Errorf("seed %d: so many digits in %s", seed, f.Message)
			}
		}
	}
}

// cells reads CSV back and looks for what a spreadsheet would run.
func cells(t *testing.T, seed uint64, text string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	for _, row := range rows {
		for _, cell := range row {
			_, number := strconv.ParseFloat(cell, 64)
			if first := strings.TrimLeft(cell, " \t\r\n"); first != "" && strings.ContainsRune("=+-@", rune(first[0])) && number != nil {
				t.Errorf("seed %d: a spreadsheet runs %q", seed, cell)
			}
			if !harmless(cell) {
				t.Errorf("seed %d: control characters in %q", seed, cell)
			}
		}
	}
}

// bounds are what holds for every beer: nothing is below nothing, the bands are in
// order, the beer ends no heavier than it could have begun, and there is no more
// alcohol than all of its extract could give (Balling: 2.0665 g of extract for 1 g,
// less what the wort loses in weight; ethanol weighs 0.7893 kg a litre at 20 °C).
func bounds(t *testing.T, seed uint64, p map[string]any) {
	t.Helper()
	band := func(v any) (low, mid, high float64, ok bool) {
		m, is := v.(map[string]any)
		if !is {
			return 0, 0, 0, false
		}
		low, ok1 := m["low"].(float64)
		mid, ok2 := m["mid"].(float64)
		high, ok3 := m["high"].(float64)
		return low, mid, high, ok1 && ok2 && ok3
	}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		if low, mid, high, ok := band(v); ok {
			if !(low <= mid && mid <= high) {
				t.Errorf("seed %d: %s is %v, %v, %v", seed, path, low, mid, high)
			}
			if low < -1e-9 {
				t.Errorf("seed %d: %s is below nothing: %v", seed, path, low)
			}
			return
		}
		switch x := v.(type) {
		case map[string]any:
			for k, e := range x {
				walk(path+"."+k, e)
			}
		case []any:
			for i, e := range x {
				walk(fmt.Sprintf("%s.%d", path, i), e)
			}
		case float64:
			if x < -1e-9 && !strings.HasSuffix(path, "strike_temperature_c") && !strings.HasPrefix(path, ".yeast_stress") && path != ".bottle_headroom_points" {
				t.Errorf("seed %d: %s is below nothing: %v", seed, path, x)
			}
		}
	}
	walk("", p)
	get := func(key string) (low, mid, high float64) {
		low, mid, high, ok := band(p[key])
		if !ok {
			t.Fatalf("seed %d: no %s", seed, key)
		}
		return low, mid, high
	}
	_, _, begun := get("effective_original_gravity_sg")
	_, _, ended := get("final_gravity_sg")
	if ended > begun+1e-6 {
		t.Errorf("seed %d: ends at %v, and could have begun at %v", seed, ended, begun)
	}
	plato := density.PlatoFromSG(begun)
	most := 100.0
	if loss := 2.0665 - 0.010665*plato; loss > 0 {
		most = plato / loss / 0.7893
	}
	if _, _, strength := get("strength_pct"); strength > most+1e-6 {
		t.Errorf("seed %d: %v %% of alcohol, and all extract (%v °P) would give %v", seed, strength, plato, most)
	}
	for _, key := range []string{"dryness", "body", "honey_character"} {
		if _, _, high := get(key); high > 100+1e-9 {
			t.Errorf("seed %d: %s is %v of 100", seed, key, high)
		}
	}
}

var chained = flag.Duration("chain", 0, "so long TestChain takes designs through the chain")

// The suite takes a few designs through the chain, .ci/fuzz as many as there is time
// for. Go's own fuzzing is of no use here: an input is the seed of a design, of which
// nothing can be learnt for the next, and counting what code ran made one three times
// as slow.
func TestChain(t *testing.T) {
	t.Parallel()
	const few = 40
	for seed := range uint64(few) {
		chain(t, seed)
	}
	if *chained == 0 {
		return
	}
	var asked atomic.Int64
	end := time.Now().Add(*chained)
	t.Run("seeds", func(t *testing.T) {
		for range runtime.GOMAXPROCS(0) {
			t.Run("worker", func(t *testing.T) {
				t.Parallel()
				for time.Now().Before(end) && !t.Failed() {
					chain(t, rand.Uint64())
					asked.Add(1)
				}
			})
		}
	})
	t.Logf("%d inputs", asked.Load())
}

// What is drawn and printed from hostile names: SVG that an XML parser reads, text
// without what a terminal obeys.
func TestFilesAreSafeWhateverTheNames(t *testing.T) {
	t.Parallel()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	doc, _ := file.Parse("demo", src)
	d := doc.Design
	d.Title = "\x1b]0;owned\x07<b>&\u202e]]>"
	for i := range d.Yeast {
		d.Yeast[i].Name = hostile[i]
	}
	d.Grain[0].Name, d.Honey[0].Name, d.Hop[0].Name = hostile[4], hostile[5], hostile[7]
	folder := t.TempDir()
	text, err := file.Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	svg, sheet := filepath.Join(folder, "a.svg"), filepath.Join(folder, "a.txt")
	for _, args := range [][]string{{"plot", "-", "-o", svg}, {"sheet", "-", "-o", sheet}} {
		if _, says, code := asked(text, args...); code != Done {
			t.Fatalf("%v: %d, %s", args, code, says)
		}
	}
	drawn, err := os.ReadFile(svg)
	if err != nil {
		t.Fatal(err)
	}
	for x := xml.NewDecoder(bytes.NewReader(drawn)); ; {
		token, err := x.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the SVG is no XML: %v", err)
		}
		if s, ok := token.(xml.StartElement); ok && s.Name.Local == "b" {
			t.Error("a title has become an element")
		}
	}
	printed, err := os.ReadFile(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"the SVG": string(drawn), "the sheet": strings.ReplaceAll(string(printed), "\f", "")} {
		if !harmless(text) || strings.ContainsRune(text, '\u202e') {
			t.Errorf("%s holds what a terminal obeys", name)
		}
	}
	// A finished batch of such a name, in the ledger's CSV.
	batch := append(bytes.Clone(text), []byte("\n[[reading]]\nwhat = \"pitched\"\nat = 2026-06-20T16:00:00Z\nvalue = 1\n\n[[reading]]\nwhat = \"final-gravity\"\nat = 2026-07-04T16:00:00Z\nvalue = 1.008\n")...)
	ledger := filepath.Join(folder, "ledger")
	if err := os.Mkdir(ledger, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(ledger, "=1+1.toml"), batch, 0o600); err != nil {
		t.Fatal(err)
	}
	out, says, code := asked(nil, "batches", ledger, "--csv")
	if code != Done || !strings.Contains(out, "final_gravity") {
		t.Fatalf("batches --csv: %d, %s, %s", code, says, out)
	}
	cells(t, 0, out)
}
