package userfile

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
	"github.com/adrg/xdg"
	"pgregory.net/rapid"

	"skep/calc/design"
)

func strain(name string) design.Yeast {
	y := design.NewYeast()
	y.Name, y.AttenuationLowPct, y.AttenuationHighPct = name, 71.5, 77
	return y
}

func mustRead(t *testing.T, path string) string {
	t.Helper()
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

func TestAFileThatIsNotThereIsEmpty(t *testing.T) {
	t.Parallel()
	list, err := LoadStrains(filepath.Join(t.TempDir(), "none", strainsFile))
	if err != nil || len(list) != 0 {
		t.Errorf("%v, %v", list, err)
	}
}

func TestAddingMakesTheFolderAndReadsBack(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "skep", strainsFile)
	about := design.About{Note: `of Gate Field's own, said "sour"`}
	if err := AddStrain(path, strain("Hedge row"), about); err != nil {
		t.Fatal(err)
	}
	if err := AddStrain(path, strain("Old jar"), design.About{}); err != nil {
		t.Fatal(err)
	}
	list, err := LoadStrains(path)
	if err != nil || len(list) != 2 {
		t.Fatalf("%v, %v", list, err)
	}
	if list[0].Yeast != strain("Hedge row") || list[0].About != about || list[1].Yeast != strain("Old jar") {
		t.Errorf("read back as %+v", list)
	}
}

// What a person wrote stays, byte for byte, whatever the line ends.
func TestAddingKeepsCommentsAndLineEnds(t *testing.T) {
	t.Parallel()
	for _, src := range []string{
		"# mine\n[[yeast]]\nname = \"A\"   # the jar\nattenuation_low_pct = 70\nattenuation_high_pct = 75\n# the end",
		"# mine\r\n[[yeast]]\r\nname = \"A\"\r\nattenuation_low_pct = 70\r\nattenuation_high_pct = 75\r\n",
		"# only a comment\n",
		"[[yeast]]\nname='A'\nattenuation_low_pct=70\nattenuation_high_pct=75\nmy_own_key = 3\n",
	} {
		path := filepath.Join(t.TempDir(), strainsFile)
		if err := os.WriteFile(path, []byte(src), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := AddStrain(path, strain("B"), design.About{}); err != nil {
			t.Fatalf("%q: %v", src, err)
		}
		got := mustRead(t, path)
		if !strings.HasPrefix(got, src) {
			t.Errorf("%q became %q", src, got)
		}
		if strings.Contains(src, "\r\n") && strings.Count(got, "\n") != strings.Count(got, "\r\n") {
			t.Errorf("mixed line ends in %q", got)
		}
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" { // which has no such permissions
			t.Errorf("permissions: %v, %v", info.Mode(), err)
		}
	}
}

func TestABrokenFileIsNamedAndLeftAlone(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ src, want string }{
		"no TOML":      {"[[yeast\n", strainsFile + ":1: "},
		"out of range": {"[[yeast]]\nname = \"A\"\nattenuation_low_pct = 70\nattenuation_high_pct = 175\n", strainsFile + ":4: "},
		"no name":      {"[[yeast]]\nattenuation_low_pct = 70\nattenuation_high_pct = 75\n", "name"},
		"upside down":  {"[[yeast]]\nname = \"A\"\nattenuation_low_pct = 80\nattenuation_high_pct = 75\n", "attenuation"},
		"not UTF-8":    {"[[yeast]]\nname = \"\xff\"\n", "UTF-8"},
	} {
		path := filepath.Join(t.TempDir(), strainsFile)
		if err := os.WriteFile(path, []byte(c.src), 0o644); err != nil {
			t.Fatal(err)
		}
		list, err := LoadStrains(path)
		if err == nil || len(list) != 0 || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), path) {
			t.Errorf("%s: %v, %v; want an error with %q", name, list, err, c.want)
		}
		if err := AddStrain(path, strain("B"), design.About{}); err == nil {
			t.Errorf("%s: a broken file was added to", name)
		}
		if got := mustRead(t, path); got != c.src {
			t.Errorf("%s: the file became %q", name, got)
		}
	}
}

func TestWhatIsRefused(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), strainsFile)
	if err := AddStrain(path, strain("Hedge row"), design.About{}); err != nil {
		t.Fatal(err)
	}
	before := mustRead(t, path)
	bad := strain("Too much")
	bad.AttenuationHighPct = 175
	inline := filepath.Join(t.TempDir(), "inline.toml")
	if err := os.WriteFile(inline, []byte("yeast = [{name = \"A\", attenuation_low_pct = 70, attenuation_high_pct = 75}]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		path string
		y    design.Yeast
		want string
	}{
		"twice":         {path, strain(" hedge ROW "), "already"},
		"no name":       {path, strain("  "), "name"},
		"out of range":  {path, bad, "attenuation_high_pct"},
		"inline tables": {inline, strain("B"), "no longer read"},
		"a folder":      {filepath.Dir(path), strain("B"), "folder"},
	} {
		if err := AddStrain(c.path, c.y, design.About{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an error with %q", name, err, c.want)
		}
	}
	if got := mustRead(t, path); got != before {
		t.Errorf("a refused strain changed the file to %q", got)
	}
}

// Any name and note that the file can hold reads back as it was entered.
func TestAnyTextReadsBack(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		y := strain(rapid.String().Draw(rt, "name"))
		note := rapid.String().Draw(rt, "note")
		path := filepath.Join(dir, strainsFile)
		_ = os.Remove(path)
		if err := AddStrain(path, y, design.About{Note: note}); err != nil {
			if strings.TrimSpace(y.Name) != "" {
				rt.Fatalf("%q, %q: %v", y.Name, note, err)
			}
			return
		}
		list, err := LoadStrains(path)
		if err != nil || len(list) != 1 || list[0].Name != strings.TrimSpace(y.Name) || list[0].Note != note {
			rt.Fatalf("%q, %q read back as %+v, %v", y.Name, note, list, err)
		}
	})
}

// 500 strains are read in far less than a tenth of a second, the limit for an
// answer that feels immediate (Miller 1968, by way of the design notes, C5).
func TestFiveHundredStrainsStayQuick(t *testing.T) {
	path := filepath.Join(t.TempDir(), strainsFile)
	var b strings.Builder
	for i := range 500 {
		b.WriteString(strainEntry(strain(fmt.Sprintf("Jar %03d", i)), design.About{Note: "from the shelf"}))
	}
	if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	best, alone := time.Hour, time.Hour
	for range 3 { // the best of three: another test may have the processor
		start := time.Now()
		list, err := LoadStrains(path)
		best = min(best, time.Since(start))
		if err != nil || len(list) != 500 {
			t.Fatalf("%d strains, %v", len(list), err)
		}
		start = time.Now()
		var any map[string]any
		if err := toml.Unmarshal([]byte(b.String()), &any); err != nil {
			t.Fatal(err)
		}
		alone = min(alone, time.Since(start))
	}
	t.Logf("500 strains read in %v, decoded alone in %v", best, alone)
	if best > 100*time.Millisecond && best > 8*alone {
		t.Errorf("500 strains took %v, decoding them alone takes %v", best, alone)
	}
}

func TestStrainsLieBesideTheSettings(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", dir)
	xdg.Reload()
	t.Cleanup(xdg.Reload)
	if got, want := StrainsPath(), filepath.Join(dir, "skep", "strains.toml"); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
