package command_test

import (
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"skep/app/words/plain"
	"skep/assets"
	"skep/calc/design"
	"skep/calc/explain"
	"skep/calc/reckon"
)

// batch is a demonstration's readings, of a beer that is on its way.
const batchReadings = `
[[reading]]
what = "original-gravity"
at = 2026-06-20T15:40:00Z
value = 1.0485
[[reading]]
what = "pitched"
at = 2026-06-20T16:00:00Z
value = 1
[[reading]]
what = "gravity"
at = 2026-06-21T18:00:00Z
value = 1.0400
[[reading]]
what = "gravity"
at = 2026-06-22T18:00:00Z
value = 1.0250
[[reading]]
what = "gravity"
at = 2026-06-23T18:00:00Z
value = 1.0390
`

// pseudoRun runs a command in the pseudo-language, with a person's own folder.
func pseudoRun(t *testing.T, home string, args ...string) string {
	t.Helper()
	c := exec.Command(skep, args...)
	c.Dir = home
	c.Env = append(os.Environ(), "SKEP_LANGUAGE=en-XA", "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_CACHE_HOME="+home)
	out, err := c.CombinedOutput()
	if err != nil {
		if _, exited := err.(*exec.ExitError); !exited {
			t.Fatal(err)
		}
	}
	return string(out)
}

// What a command says to a person is in that person's language: in the
// pseudo-language no plain English word is left but the formats' own (keys, names
// of commands, flags and files) and what people typed.
func TestNoEnglishInTheCommands(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	typed := "Gate Field Midsummer Midsummer, dry soft as first drawn Clean ale"
	for _, name := range assets.Demos() {
		src, err := assets.Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		typed += " " + plain.Quoted(string(src))
		if err := os.WriteFile(filepath.Join(home, name), src, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	middle, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	write := func(name, text string) {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(home, name)), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(home, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("batch.toml", string(middle)+batchReadings)
	write("folder/batch.toml", string(middle)+batchReadings)
	write("folder/nobatch.toml", "format = 1\n")
	write("damaged.toml", "format = 1\n[batch\n\x00")
	write("empty.toml", "")
	write("wrong.toml", "format = 1\ncolour_of_the_label = \"straw\"\n[batch]\ninto_fermenter_l = 900\n")
	commands := [][]string{
		{"check", "wrong.toml"}, {"follow", "batch.toml", "--at", "2026-06-24T18:00:00Z"}, {"follow", assets.DemoMiddle},
		{"batches", "folder"}, {"learnt", "folder"}, {"batches", "/nowhere/x.y"}, {"kit"}, {"kit", "Shed"}, {"kit", "Shed", "vessel_l=18"}, {"kit"}, {"kit", "Shed", "odd=1"},
		{"kit", "Shed", "test.heat_litres=10"}, {"kit", "Shed", "--remove"},
		{"start", "title=Hedge", "kit=18", "honey_kg=0.45", "-o", "hedge.toml"}, {"start", "odd=1"}, {"catalogue"},
		{"sweep", assets.DemoMiddle, "honey.0.mass_kg", "0.5", "0.6", "2"}, {"sweep", assets.DemoMiddle, "honey.0.mass_kg", "a", "b", "c"},
		{"predict", assets.DemoMiddle, "--odd"}, {"predict"}, {"predict", "nowhere.toml"}, {"oddly."}, {"predict", assets.DemoMiddle, "--set", "honey.0.mass_kg=much"},
		{"plot", assets.DemoMiddle, "-o", "odd.gif"}, {"sheet", assets.DemoMiddle, "-o", "odd.gif"},
		{"reckon", "strength", "original_sg=1.050", "final_sg=1.010"}, {"reckon", "strength"}, {"reckon", "strength", "original_sg=9", "final_sg=1.010"}, {"reckon", "odd"},
		{"explain", assets.DemoMiddle, "odd"}, {"help", "odd"}, {"help", "man"},
		// What can't be read, written or understood.
		{"check", "."}, {"check", "damaged.toml"}, {"check", "empty.toml"}, {"sheet", assets.DemoMiddle, "-o", "/nowhere/x.pdf"}, {"sheet", assets.DemoMiddle, "-o", "/nowhere/x.txt"},
		{"plot", assets.DemoMiddle, "-o", "/nowhere/x.png"}, {"tune", assets.DemoMiddle, "-o", "/nowhere/t.toml"}, {"start", "kit=18", "-o", assets.DemoMiddle},
		{"follow", "batch.toml", "--at", "late"}, {"follow", "batch.toml", "--at", "2020-01-01"}, {"predict", assets.DemoMiddle, "--learnt", "/nowhere"}, {"predict", assets.DemoMiddle, "--now", "late"},
		{"sweep", assets.DemoMiddle, "title", "1", "2", "3"}, {"sweep", assets.DemoMiddle, "honey.0.mass_kg", "0.5", "0.6", "0"}, {"sweep", assets.DemoMiddle, "honey.7.mass_kg", "0.5", "0.6", "2"},
		{"predict", assets.DemoMiddle, "--set", "honey"}, {"predict", assets.DemoMiddle, "--set", "odd.key=1"}, {"predict", assets.DemoMiddle, "--set", "kit.vessel_l=1"}, {"predict", "wrong.toml"},
		{"compare", assets.DemoMiddle, "--csv", "--json"}, {"kit", "Attic"}, {"kit", "Attic", "--remove"}, {"kit", "Shed", "vessel_l=900"}, {"batches", assets.DemoMiddle}, {"learnt", assets.DemoMiddle},
		{"predict", "batch.toml"}, {"course", "batch.toml"}, {"predict", "batch.toml", "--plan"}, {"batches", "../nowhere"}, {"check", "batch.toml"}, {"sheet", "batch.toml", "-o", "batch.txt"}, {"check", "batch.txt"},
		// Beyond what is known: warnings.
		{"predict", assets.DemoMiddle, "--set", "yeast.0.temperature_c=38", "--set", "mash.rest.0.temperature_c=77", "--set", "honey.0.moisture_pct=25", "--set", "hop.0.mass_g=400"},
	}
	for _, name := range assets.Demos() {
		for _, c := range []string{"check", "predict", "compare", "course", "tune"} {
			commands = append(commands, []string{c, name})
		}
	}
	for _, key := range explain.Keys() {
		commands = append(commands, []string{"explain", assets.DemoMiddle, key})
	}
	for _, c := range []string{"check", "predict", "compare", "course", "sweep", "tune", "explain", "plot", "sheet", "reckon", "start", "follow", "batches", "learnt", "kit", "catalogue", "help"} {
		commands = append(commands, []string{"help", c})
	}
	for _, c := range reckon.List() {
		commands = append(commands, []string{"reckon", c.Name}, []string{"reckon", c.Name, "odd=1"})
	}
	commands = append(commands, []string{"help"}, []string{"help", "design"}, []string{"help", "json"})
	catalogue, err := exec.Command(skep, "catalogue", "--json").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range regexp.MustCompile(`"name": "[^"]*"`).FindAllString(string(catalogue), -1) {
		typed += " " + strings.TrimPrefix(name, `"name"`) // public varieties and families keep their names
	}
	typed += " removed oddly toml nowhere skep check predict compare course sweep tune explain plot sheet reckon start follow batches learnt kit catalogue help Shed Hedge Attic format title"
	for _, c := range reckon.List() {
		typed += " " + c.Name
	}
	allowed := plain.Words(typed + " plato")
	// The lists of a format's keys name them, and the words that they take.
	keys := strings.Join(explain.Keys(), " ")
	for _, c := range reckon.List() {
		for _, f := range slices.Concat(c.In, c.Out) {
			keys += " " + f.Key + " " + strings.Join(f.Words, " ")
		}
	}
	for _, k := range design.Keys() {
		keys += " " + k.Path + " " + strings.Join(k.Words, " ")
	}
	english, err := exec.Command(skep, "help", "json").Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(english)) {
		if key, _, indented := strings.Cut(strings.TrimLeft(line, " "), " "); indented && line[0] == ' ' {
			keys += " " + key
		}
	}
	formats := plain.Words(typed + " plato nowhere true false " + keys)
	for _, args := range commands {
		text := pseudoRun(t, home, args...)
		text = strings.ReplaceAll(text, home, "")
		if slices.Contains(args, "man") { // its roff
			text = regexp.MustCompile(`(?m)^\.[A-Za-z]{2}\b|\\f[BIR]|\\\(aq`).ReplaceAllString(strings.ReplaceAll(text, `\-`, "-"), " ")
		}
		known := allowed
		if args[0] == "help" || args[0] == "explain" || args[0] == "reckon" || slices.Contains(args, "odd=1") {
			known = formats
		}
		if english := plain.English(text, typedLines, known); len(english) > 0 {
			t.Errorf("skep %s has English that no language reaches: %s", strings.Join(args, " "), strings.Join(english, " "))
		}
	}
}

// typedLines are what no language changes on a terminal: settings, flags, and lines to type.
var typedLines = regexp.MustCompile(`(?m)^ +skep .*$|skep [a-z]+( [A-Zkdf]\S*)*|--?[a-z]+|[a-z_0-9.]+=\S*|\[[a-z]+\]|"[^"]*"`)

// The four pictures are in the person's language, and nothing in them is cut: the
// names at the ends of the lines have a third of the width, on a sheet as in the window.
func TestPicturesAreInTheLanguage(t *testing.T) {
	t.Parallel()
	middle, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	home := t.TempDir()
	path := filepath.Join(home, "middle.toml")
	if err := os.WriteFile(path, middle, 0o600); err != nil {
		t.Fatal(err)
	}
	allowed := plain.Words(plain.Quoted(string(middle)) + " vol")
	inside := regexp.MustCompile(`(?s)<text[^>]*>(.*?)</text>`)
	for _, language := range []string{"en", "de", "pl", "en-XA"} {
		picture := filepath.Join(home, language+".svg")
		c := exec.Command(skep, "plot", path, "-o", picture)
		c.Env = append(os.Environ(), "SKEP_LANGUAGE="+language, "HOME="+home)
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		svg, err := os.ReadFile(picture)
		if err != nil {
			t.Fatal(err)
		}
		var texts []string
		for _, m := range inside.FindAllStringSubmatch(string(svg), -1) {
			texts = append(texts, html.UnescapeString(strings.TrimSpace(m[1])))
		}
		all := strings.Join(texts, "\n")
		if len(texts) < 40 || strings.Contains(all, "…") {
			t.Errorf("%s: %d texts, or one is cut: %q", language, len(texts), texts)
		}
		if english := plain.English(all, typedLines, allowed); language == "en-XA" && len(english) > 0 {
			t.Errorf("English that no language reaches: %q", english)
		}
	}
}
