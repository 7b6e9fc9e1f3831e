package userfile

import (
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/message"
)

// Kind is a kind of thing that a person keeps on a shelf of their own.
type Kind int

// The kinds, each with a file of its own.
const (
	StrainKind Kind = iota
	GrainKind
	HoneyKind
	HopKind
)

// kind is how one kind's file is called and begins.
type kind struct {
	file, table, head string
}

// of is how the kind's file is called and begins.
func (k Kind) of() kind {
	switch k {
	case GrainKind:
		return kind{"grain.toml", "grain", headOf("Grain and sugar")}
	case HoneyKind:
		return kind{"honey.toml", "honey", headOf("Honey")}
	case HopKind:
		return kind{"hop.toml", "hop", headOf("Hops")}
	}
	return kind{strainsFile, "yeast", `# Strains of one's own, for Skep's Yeasts place. The keys are those of the
# design file, with note and source beside them; what is left out has the
# design file's default. Attenuation is apparent, on an all-malt wort mashed for
# an hour at 66 °C.
`}
}

func headOf(what string) string {
	return "# " + what + ` of one's own, for Skep's Brew place. The keys are those of the design
# file, with note and source beside them; what is left out has its default.
`
}

// Shelf is what a person keeps of their own beside the catalogue.
type Shelf struct {
	Grain []design.CatalogueGrain
	Honey []design.CatalogueHoney
	Hop   []design.CatalogueHop
	// Problems are of the files, each with its line where it has one: of a file
	// with a mistake nothing is taken, of a name that stands twice the first.
	Problems []error
}

// shelfPath is the file of a kind in the folder of a person's own files.
func shelfPath(folder string, k Kind) string { return filepath.Join(folder, k.of().file) }

// LoadShelf reads a person's own grain, honey and hops. Files that are not there
// are empty.
func LoadShelf(folder string) Shelf {
	var s Shelf
	for _, k := range []Kind{GrainKind, HoneyKind, HopKind} {
		_, list, findings, err := read(shelfPath(folder, k))
		if err != nil {
			s.Problems = append(s.Problems, err)
			continue
		}
		for _, f := range findings {
			if strings.HasSuffix(f.Key, ".name") {
				s.Problems = append(s.Problems, f)
			}
		}
		switch k {
		case GrainKind:
			s.Grain = firstOf(list.Grain, func(g design.CatalogueGrain) string { return g.Name })
		case HoneyKind:
			s.Honey = firstOf(list.Honey, func(h design.CatalogueHoney) string { return h.Name })
		case HopKind:
			s.Hop = firstOf(list.Hop, func(h design.CatalogueHop) string { return h.Name })
		}
	}
	return s
}

// firstOf keeps the first thing of each name.
func firstOf[T any](all []T, name func(T) string) []T {
	var out []T
	seen := map[string]bool{}
	for _, x := range all {
		n := strings.ToLower(strings.TrimSpace(name(x)))
		if !seen[n] {
			seen[n] = true
			out = append(out, x)
		}
	}
	return out
}

// AddGrain writes a grain at the end of a person's own; see [add].
func AddGrain(folder string, g design.Grain, about design.About) error {
	g.Name, g.MassKg = strings.TrimSpace(g.Name), design.NewGrain().MassKg
	b := GrainKind.entry(g.Name)
	b.line("extract_pct", number(g.ExtractPct))
	b.line("moisture_pct", number(g.MoisturePct))
	b.line("colour_ebc", number(g.ColourEBC))
	b.line("enzymes", quote(g.Enzymes))
	b.about(about)
	return add(shelfPath(folder, GrainKind), GrainKind.of(), g.Name, b.String(), func(c *design.Catalogue) bool {
		return lastIs(c.Grain, design.CatalogueGrain{Grain: g, About: about})
	})
}

// AddHoney writes a honey; when it goes in belongs to a brew and is left out.
func AddHoney(folder string, h design.Honey, about design.About) error {
	plain := design.NewHoney()
	plain.Name, plain.MoisturePct, plain.Raw = strings.TrimSpace(h.Name), h.MoisturePct, h.Raw
	b := HoneyKind.entry(plain.Name)
	b.line("moisture_pct", number(h.MoisturePct))
	b.line("raw", strconv.FormatBool(h.Raw))
	b.about(about)
	return add(shelfPath(folder, HoneyKind), HoneyKind.of(), plain.Name, b.String(), func(c *design.Catalogue) bool {
		return lastIs(c.Honey, design.CatalogueHoney{Honey: plain, About: about})
	})
}

// AddHop writes a hop; how much of it and when belongs to a brew and is left out.
func AddHop(folder string, h design.Hop, about design.About) error {
	plain := design.NewHop()
	plain.Name, plain.AlphaPct = strings.TrimSpace(h.Name), h.AlphaPct
	b := HopKind.entry(plain.Name)
	b.line("alpha_pct", number(h.AlphaPct))
	b.about(about)
	return add(shelfPath(folder, HopKind), HopKind.of(), plain.Name, b.String(), func(c *design.Catalogue) bool {
		return lastIs(c.Hop, design.CatalogueHop{Hop: plain, About: about})
	})
}

// lastIs is the check of all of them: what was entered stands at the end.
func lastIs[T comparable](all []T, x T) bool { return len(all) > 0 && all[len(all)-1] == x }

func read(path string) ([]byte, design.Catalogue, []design.Finding, error) {
	src, err := savefile.Read(path)
	var failed *savefile.Error
	if errors.As(err, &failed) && failed.Missing() {
		return nil, design.Catalogue{}, nil, nil
	}
	if err != nil {
		return nil, design.Catalogue{}, nil, err
	}
	list, findings := file.ParseList(path, src)
	if err := design.FirstError(findings); err != nil {
		return nil, design.Catalogue{}, nil, err
	}
	return src, list, findings, nil
}

// names are those of a kind in a list.
func names(c *design.Catalogue, k kind) (all []string) {
	switch k.table {
	case "yeast":
		for i := range c.Yeast {
			all = append(all, c.Yeast[i].Name)
		}
	case "grain":
		for i := range c.Grain {
			all = append(all, c.Grain[i].Name)
		}
	case "honey":
		for i := range c.Honey {
			all = append(all, c.Honey[i].Name)
		}
	case "hop":
		for i := range c.Hop {
			all = append(all, c.Hop[i].Name)
		}
	}
	return all
}

// add writes a thing at the end of its file, which is made if need be; all that
// stands in it, comments too, is kept byte for byte. A name that is there already
// is refused, as is a file with a mistake in it. It must read back, as the last,
// as it was entered.
func add(path string, k kind, name, entry string, readsBack func(*design.Catalogue) bool) error {
	if name == "" {
		return message.NewError("a name is missing to find it again by")
	}
	src, list, _, err := read(path)
	if err != nil {
		return err
	}
	for _, other := range names(&list, k) {
		if SameName(other, name) {
			return message.NewError("{name} is already in {path}; give this one another name", name, path)
		}
	}
	text := string(src)
	switch {
	case strings.TrimSpace(text) == "":
		text += k.head
	case !strings.HasSuffix(text, "\n"):
		text += "\n"
	}
	text += entry
	if strings.Contains(string(src), "\r\n") {
		text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\n", "\r\n")
	}
	// What is about to be written must read back as what was there and this.
	again, findings := file.ParseList(path, []byte(text))
	if err := design.FirstError(findings); err != nil {
		return message.NewError("{path} was not changed, as it would no longer read: {error}", path, err)
	}
	if len(names(&again, k)) != len(names(&list, k))+1 || !readsBack(&again) {
		return message.NewError("{path} was not changed: what was entered would not read back as it is", path)
	}
	if err := savefile.MakeFolder(filepath.Dir(path), folderMode); err != nil {
		return &savefile.Error{Doing: savefile.Saving, Path: path, Err: err}
	}
	return savefile.Write(path, []byte(text))
}

// entryText is a thing as a person would write it.
type entryText struct{ strings.Builder }

// entry begins a thing of a kind.
func (k Kind) entry(name string) *entryText {
	b := &entryText{}
	fmt.Fprintf(b, "\n[[%s]]\n", k.of().table)
	b.line("name", quote(name))
	return b
}

func (b *entryText) line(key, value string) { fmt.Fprintf(b, "%s = %s\n", key, value) }

func (b *entryText) about(about design.About) {
	for _, extra := range []struct{ key, text string }{{"family", about.Family}, {"note", about.Note}, {"source", about.Source}} {
		if extra.text != "" {
			b.line(extra.key, quote(extra.text))
		}
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// quote is a TOML basic string. Go's own quoting has escapes that TOML lacks.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
