package userfile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"skep/app/savefile"
	"skep/calc/design"
	"skep/calc/design/file"
)

// head is what a new file begins with.
const head = `# Strains of one's own, for Skep's Yeasts place. The keys are those of the
# design file, with note and source beside them; what is left out has the
# design file's default. Attenuation is apparent, on an all-malt wort mashed for
# an hour at 66 °C.
`

// LoadStrains reads a file of strains. One that is not there is empty and no
// error. One that can't be read, or has a mistake in it, gives no strain and an
// error that names it and, where it can, the line; the file stays as it is.
func LoadStrains(path string) ([]design.CatalogueYeast, error) {
	_, list, err := read(path)
	return list, err
}

func read(path string) ([]byte, []design.CatalogueYeast, error) {
	src, err := savefile.Read(path)
	var failed *savefile.Error
	if errors.As(err, &failed) && failed.Missing() {
		return nil, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	list, findings := file.ParseList(path, src)
	if err := design.FirstError(findings); err != nil {
		return nil, nil, err
	}
	return src, list.Yeast, nil
}

// AddStrain writes a strain at the end of a file, which is made if need be; all
// that stands in it, comments too, is kept byte for byte. A name that is there
// already is refused, as is a file with a mistake in it.
func AddStrain(path string, y design.Yeast, about design.About) error {
	y.Name = strings.TrimSpace(y.Name)
	if y.Name == "" {
		return errors.New("a strain needs a name to be found again by")
	}
	src, list, err := read(path)
	if err != nil {
		return err
	}
	for _, other := range list {
		if strings.EqualFold(strings.TrimSpace(other.Name), y.Name) {
			return fmt.Errorf("%s is among your own strains already; give this one another name", y.Name)
		}
	}
	text := string(src)
	switch {
	case strings.TrimSpace(text) == "":
		text += head
	case !strings.HasSuffix(text, "\n"):
		text += "\n"
	}
	text += entry(y, about)
	if strings.Contains(string(src), "\r\n") {
		text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\n", "\r\n")
	}
	// What is about to be written must read back as what was there and this.
	again, findings := file.ParseList(path, []byte(text))
	if err := design.FirstError(findings); err != nil {
		return fmt.Errorf("the strain was not written, as the file would no longer read: %w", err)
	}
	n := len(again.Yeast)
	if n != len(list)+1 || again.Yeast[n-1].Yeast != y || again.Yeast[n-1].About != about {
		return fmt.Errorf("%s was not changed: the strain would not read back as it was entered", path)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return &savefile.Error{Doing: "save", Path: path, Err: err}
	}
	return savefile.Write(path, []byte(text))
}

// entry is a strain as a person would write it.
func entry(y design.Yeast, about design.About) string {
	var b strings.Builder
	line := func(key, value string) { fmt.Fprintf(&b, "%s = %s\n", key, value) }
	b.WriteString("\n[[yeast]]\n")
	line("name", quote(y.Name))
	line("attenuation_low_pct", number(y.AttenuationLowPct))
	line("attenuation_high_pct", number(y.AttenuationHighPct))
	line("temperature_c", number(y.TemperatureC))
	line("cells_billion_per_l", number(y.CellsBillionPerL))
	if y.Form != "" {
		line("form", quote(y.Form))
	}
	line("eats_dextrin", strconv.FormatBool(y.EatsDextrin))
	for _, limit := range []struct {
		key   string
		value float64
	}{{"tolerance_pct", y.TolerancePct}, {"coldest_c", y.ColdestC}, {"warmest_c", y.WarmestC}} {
		if limit.value != 0 {
			line(limit.key, number(limit.value))
		}
	}
	for _, extra := range []struct{ key, text string }{{"family", about.Family}, {"note", about.Note}, {"source", about.Source}} {
		if extra.text != "" {
			line(extra.key, quote(extra.text))
		}
	}
	return b.String()
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
