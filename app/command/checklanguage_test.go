package command

import (
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	tomltest "github.com/toml-lang/toml-test/v2"
	"golang.org/x/text/language"

	"skep/app/words"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
	"skep/calc/reckon"
)

// wrongFiles are files that a person may bring: broken TOML, each key with what it can't
// be, and designs at random. Source of the broken TOML: the public test suite of the
// language, github.com/toml-lang/toml-test/v2.
func wrongFiles(t *testing.T, do func(name, src string)) {
	t.Helper()
	tests := tomltest.TestCases()
	err := fs.WalkDir(tests, "invalid", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".toml") {
			return err
		}
		src, err := fs.ReadFile(tests, path)
		do(path, string(src))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	raw, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	demo := string(raw)
	for _, k := range design.Keys() {
		line := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(k.Name()) + ` *=.*$`)
		for i, value := range []string{"1e300", "-77", "nan", "\"odd\"", "true", "[1, \"x\"]", "[{ a = 1 }]", "{ b = 2 }", "07:32:00", "1850-01-01T00:00:00Z", ""} {
			to := "# gone"
			if value != "" {
				to = k.Name() + " = " + value
			}
			do(fmt.Sprintf("%s-%d.toml", k.Path, i), line.ReplaceAllString(demo, to))
		}
		do(k.Path+"-typo.toml", line.ReplaceAllString(demo, k.Name()+"x = 1\n"+strings.ToUpper(k.Name())+" = 1"))
	}
	for i, odd := range []string{
		"[[temperature]]\nat_hours = 3\nat_attenuation_pct = 50\ntemperature_c = 20\n",
		"[[reading]]\nwhat = \"drier-than\"\nvalue = 1\n", "[[reading]]\nwhat = \"foam\"\nvalue = 1.5\n", "[[reading]]\nwhat = \"drier-than\"\nvalue = 0.5\nother = \"x.toml\"\n",
		"[[reading]]\nwhat = \"gravity\"\nvalue = 1.01\nother = \"x.toml\"\n", "[[reading]]\nwhat = \"gravity\"\nvalue = 5\n", "[[reading]]\nwhat = \"honey-added\"\nvalue = 500\n",
		"[[reading]]\nwhat = \"pitched\"\nat = 2026-06-20T15:40:00\n", strings.Repeat("[[hop]]\n", 30),
		"[crush]\non_sieve_pct = [1, 2]\n", "[crush]\non_sieve_pct = [1, 2, 3, 4, 5, 6]\n",
		"[ghost]\nsettings = { a = 1, \"ghost.name\" = \"x\", \"mash.rest.9.minutes\" = 3, \"mash.rest.0\" = 1, \"mash.rest\" = 1, \"\" = 1, \"honey.0.mass_kg\" = \"much\", \"taste.hold\" = [[1]], \"kit\" = 2 }\n",
		"notes = \"" + strings.Repeat("x", 200_001) + "\"\n", "[no.such]\ntable = 1\n", "[[kit]]\n",
	} {
		do(fmt.Sprintf("odd-%d.toml", i), demo+"\n"+odd)
		do(fmt.Sprintf("odd-first-%d.toml", i), odd+demo)
	}
	do("format.toml", strings.Replace(demo, "format = 1", "format = 9", 1))
	do("empty.toml", "")
	do("large.toml", strings.Repeat("# much\n", 200_000))
	r := rand.New(rand.NewPCG(5, 17))
	for i := range 40 {
		d, err := anyDesign(r)
		if err != nil {
			t.Fatal(err)
		}
		if src, err := file.Encode(d); err == nil {
			do(fmt.Sprintf("any-%d.toml", i), string(src))
		}
	}
	for i, d := range []func(d *design.Design){
		func(d *design.Design) { d.Grain[0].MassKg = 0; d.Grain = d.Grain[:1] },
		func(d *design.Design) { d.Grain[0].MassKg = 200 },
		func(d *design.Design) { d.Boil.Minutes, d.Kit.SteamLPerH = 240, 50 },
		func(d *design.Design) { d.Batch.IntoFermenterL = 1 },
	} {
		doc, _ := file.Parse("demo", raw)
		d(&doc.Design)
		if src, err := doc.Write(doc.Design); err == nil {
			do(fmt.Sprintf("no-beer-%d.toml", i), string(src))
		}
	}
}

// Whatever is wrong with a file, check says it in the person's language: in the
// pseudo-language no plain English stands in it but what is the file's own, its name,
// and the keys and words of the format.
func TestCheckSpeaksEveryLanguage(t *testing.T) {
	t.Parallel()
	pseudo := words.Find([]language.Tag{words.Pseudo})
	plain := regexp.MustCompile(`[A-Za-z]{2,}`)
	sentence := regexp.MustCompile(`[A-Za-z]{2,}(?: [A-Za-z]{2,}){2,}`)
	figures := regexp.MustCompile(`\binf\b|0x[0-9A-F]+|\\\\?[uUx][0-9A-Fa-f]+`) // bytes and escapes, as TOML writes them
	format := map[string]bool{}
	for _, k := range design.Keys() {
		for _, w := range append(k.Words, k.Path) {
			for _, part := range plain.FindAllString(w, -1) {
				format[part] = true
			}
		}
	}
	files, said := 0, map[string]bool{}
	wrongFiles(t, func(name, src string) {
		files++
		for _, f := range check(name, []byte(src)) {
			text := figures.ReplaceAllString(marked(f).In(func(m message.Message) string {
				said[m.Text] = true
				return pseudo.Translate(m)
			}, nil), "")
			for _, w := range plain.FindAllString(text, -1) {
				if !format[w] && !strings.Contains(src, w) && !strings.Contains(name, w) {
					t.Errorf("%s: %q is plain in %q", name, w, text)
				}
			}
			for _, w := range sentence.FindAllString(text, -1) {
				if !strings.Contains(src, w) {
					t.Errorf("%s: %q is plain in %q", name, w, text)
				}
			}
		}
	})
	if files < 1000 || len(said) < 80 {
		t.Errorf("%d files and %d texts: the corpus is not there", files, len(said))
	}
	t.Logf("%d files, %d texts", files, len(said))
}

// So does a calculation that refuses: in the pseudo-language no plain English stands
// in it but names, keys, words and what was typed.
func TestReckonSpeaksEveryLanguage(t *testing.T) {
	t.Parallel()
	pseudo := words.Find([]language.Tag{words.Pseudo})
	plain := regexp.MustCompile(`[A-Za-z_]{2,}`)
	known := map[string]bool{"zzz": true, "nan": true}
	for _, c := range reckon.List() {
		for _, part := range plain.FindAllString(c.Name, -1) {
			known[part] = true
		}
		for _, f := range c.In {
			for _, w := range append([]string{f.Key}, f.Words...) {
				for _, part := range plain.FindAllString(w, -1) {
					known[part] = true
				}
			}
		}
	}
	refused := 0
	ask := func(name string, in map[string]string) {
		_, err := reckon.Do(name, in)
		if err == nil {
			return
		}
		refused++
		text := message.OfError(err).In(pseudo.Translate, nil)
		for _, w := range plain.FindAllString(text, -1) {
			if !known[w] {
				t.Errorf("%s %v: %q is plain in %q", name, in, w, text)
			}
		}
	}
	ask("zzz", nil)
	for _, c := range reckon.List() {
		least, most := map[string]string{}, map[string]string{}
		for _, f := range c.In {
			least[f.Key], most[f.Key] = fmt.Sprint(f.Min), fmt.Sprint(f.Max)
			if len(f.Words) > 0 {
				least[f.Key], most[f.Key] = f.Words[0], f.Words[len(f.Words)-1]
			}
		}
		ask(c.Name, nil)
		ask(c.Name, map[string]string{"zzz": "1"})
		for _, f := range c.In {
			for _, odd := range []string{"zzz", "1,5", "-999999", "999999", "nan", least[f.Key], most[f.Key]} {
				for _, base := range []map[string]string{least, most} {
					in := maps.Clone(base)
					in[f.Key] = odd
					ask(c.Name, in)
				}
			}
		}
	}
	if refused < 300 {
		t.Errorf("only %d refusals", refused)
	}
}
