package file

import (
	"bytes"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
	"time"

	tomltest "github.com/toml-lang/toml-test/v2"

	"skep/calc/design"
	"skep/calc/message"
)

// corpus calls do for each TOML file of the public test suite of the TOML
// language that counts for a version of it.
// Source: github.com/toml-lang/toml-test/v2 v2.2.0.
func corpus(t *testing.T, version, kind string, do func(name string, src []byte)) (files int) {
	t.Helper()
	tests := tomltest.TestCases()
	list, err := fs.ReadFile(tests, "files-toml-"+version)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range strings.Fields(string(list)) {
		if !strings.HasPrefix(name, kind+"/") || path.Ext(name) != ".toml" {
			continue
		}
		src, err := fs.ReadFile(tests, name)
		if err != nil {
			t.Fatal(err)
		}
		do(name, src)
		files++
	}
	return files
}

// parsed is Parse with a panic and a hang turned into a failure.
func parsed(t *testing.T, name string, src []byte) (*Document, []design.Finding) {
	t.Helper()
	type result struct {
		doc   *Document
		found []design.Finding
		died  any
	}
	done := make(chan result, 1)
	go func() {
		var r result
		defer func() {
			r.died = recover()
			done <- r
		}()
		r.doc, r.found = Parse(name, src)
	}()
	select {
	case r := <-done:
		if r.died != nil {
			t.Errorf("%s: panic: %v", name, r.died)
		}
		return r.doc, r.found
	case <-time.After(10 * time.Second): // they are all of a few hundred bytes
		t.Fatalf("%s: the reader hangs", name)
		return nil, nil
	}
}

// badPosition says what is wrong with where a finding points.
func badPosition(f design.Finding, src []byte) string {
	lines := bytes.Split(src, []byte("\n"))
	switch {
	case f.Line < 1 || f.Line > len(lines):
		return fmt.Sprintf("line %d of %d", f.Line, len(lines))
	case f.Col < 1 || f.Col > len(lines[f.Line-1])+1:
		return fmt.Sprintf("column %d in a line of %d bytes", f.Col, len(lines[f.Line-1]))
	case f.Message.Empty() || strings.Contains(f.Message.String(), "\n"):
		return fmt.Sprintf("the message %q", f.Message)
	case !strings.HasPrefix(f.String(), fmt.Sprintf("%s:%d: ", f.File, f.Line)):
		return fmt.Sprintf("%q does not begin with file and line", f.String())
	}
	return ""
}

// english says whether a text of the decoder stands in a message as it is.
func english(m message.Message) bool {
	if strings.Contains(m.Text, "{detail}") {
		return true
	}
	return slices.ContainsFunc(m.With, func(v any) bool { within, ok := v.(message.Message); return ok && english(within) })
}

// Every file that the language holds invalid is refused, at a place in it, and
// all but the known few as TOML, before anything is read from it.
func TestCorpusInvalid(t *testing.T) {
	t.Parallel()
	for _, version := range []string{"1.0.0", "1.1.0"} {
		var taken []string
		files := corpus(t, version, "invalid", func(name string, src []byte) {
			doc, found := parsed(t, name, src)
			if doc != nil {
				taken = append(taken, name)
			}
			if !design.HasErrors(found) {
				t.Errorf("TOML %s, %s: no error", version, name)
			}
			for _, f := range found {
				if why := badPosition(f, src); why != "" {
					t.Errorf("TOML %s, %s: %v: %s", version, name, f, why)
				}
				if english(f.Message) {
					t.Errorf("TOML %s, %s: the decoder's own English: %v", version, name, f)
				}
			}
		})
		want := slices.Concat(lenient, onlyIn[version])
		slices.Sort(want)
		slices.Sort(taken)
		if !slices.Equal(taken, want) {
			t.Errorf("TOML %s: taken for valid TOML:\n%q\nknown are\n%q", version, taken, want)
		}
		if files < 300 {
			t.Errorf("TOML %s: only %d files: the corpus is not there", version, files)
		}
		t.Logf("TOML %s: %d invalid files", version, files)
	}
}

// No valid file makes the reader stumble. As designs they are refused for what
// is missing from them, or for a limit of ours, again at a place.
func TestCorpusValid(t *testing.T) {
	t.Parallel()
	var refused []string
	files := corpus(t, "1.1.0", "valid", func(name string, src []byte) {
		doc, found := parsed(t, name, src)
		if doc == nil {
			refused = append(refused, fmt.Sprintf("%s: %v", name, design.FirstError(found)))
		}
		if !design.HasErrors(found) {
			t.Errorf("%s: taken for a design", name)
		}
		for _, f := range found {
			if why := badPosition(f, src); why != "" {
				t.Errorf("%s: %v: %s", name, f, why)
			}
		}
	})
	if files < 150 {
		t.Errorf("only %d files: the corpus is not there", files)
	}
	t.Logf("%d valid files, refused as TOML: %q", files, refused)
}

// lenient are the invalid files that BurntSushi's decoder v1.6.0 takes, and our
// index with it: 13 of 467 for TOML 1.1. In twelve a table is opened or added
// to in a second place, where TOML wants it in one; nothing is said twice, every
// value is read, and the writer keeps each where it stands (TestLenientLosesNothing).
// The other gives a time zone of 60 minutes. As they hold no design they are
// refused all the same, for the keys that are missing.
var lenient = []string{
	"invalid/datetime/offset-overflow-minute.toml",
	"invalid/inline-table/duplicate-key-03.toml",
	"invalid/inline-table/overwrite-02.toml",
	"invalid/inline-table/overwrite-08.toml",
	"invalid/table/append-with-dotted-keys-01.toml",
	"invalid/table/append-with-dotted-keys-02.toml",
	"invalid/table/append-with-dotted-keys-08.toml",
	"invalid/table/duplicate-key-04.toml",
	"invalid/table/duplicate-key-05.toml",
	"invalid/table/redefine-02.toml",
	"invalid/table/redefine-03.toml",
}

// onlyIn are the like in one version's list alone. The decoder judges by 1.1,
// so that it takes what 1.0 did not allow yet.
var onlyIn = map[string][]string{
	"1.1.0": {"invalid/spec-1.1.0/common-46-1.toml", "invalid/spec-1.1.0/common-49-0.toml"},
	"1.0.0": {
		"invalid/spec-1.0.0/inline-table-2-0.toml", "invalid/spec-1.0.0/table-9-1.toml", // those two again
		"invalid/datetime/no-secs.toml", "invalid/local-datetime/no-secs.toml", "invalid/local-time/no-secs.toml",
		"invalid/inline-table/linebreak-01.toml", "invalid/inline-table/linebreak-02.toml",
		"invalid/inline-table/linebreak-03.toml", "invalid/inline-table/linebreak-04.toml",
		"invalid/inline-table/trailing-comma.toml", "invalid/string/basic-byte-escapes.toml",
	},
}

// A design laid out in the ways of the lenient files: it is read in full, and a
// save changes what was changed and nothing else.
func TestLenientLosesNothing(t *testing.T) {
	t.Parallel()
	written := 0
	for name, text := range map[string]string{
		"a table opened after its dotted keys": least + "kit.tap_c = 11\nkit.vessel_l = 31\n[batch]\n",
		"dotted keys added to a table":         "kit.tap_c = 11\n" + least + "[kit]\nvessel_l = 31\n",
		"a dotted key added to an inline table": strings.Replace(least, "format = 1\n",
			"format = 1\nkit = { vessel_l = 31 }\nkit.tap_c = 11\n", 1),
	} {
		doc, found := parsed(t, name, []byte(text))
		if doc == nil || design.HasErrors(found) {
			t.Logf("%s: not read: %v", name, found)
			continue // said so: nothing can be lost either
		}
		d := doc.Design.Clone()
		if d.Kit.TapC != 11 || d.Kit.VesselL != 31 {
			t.Errorf("%s: read as %+v", name, d.Kit)
		}
		d.Kit.TapC, d.Kit.VesselL, d.Batch.IntoFermenterL = 9, 33, 16
		out, err := doc.Write(d)
		if err != nil {
			t.Logf("%s: not written: %v", name, err)
			continue // said so, and the file is untouched
		}
		written++
		if again, found := parsed(t, name, out); again == nil || design.HasErrors(found) || !again.Design.Equal(d) {
			t.Errorf("%s: written as\n%s\nwhich reads otherwise: %v", name, out, found)
		}
	}
	if written == 0 {
		t.Error("none of them was read and written: this proves nothing")
	}
}
