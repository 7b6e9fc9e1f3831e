package shell

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"skep/app/look"
	"skep/calc/quantity"
)

func write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestPreferencesComeBack(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "new", "folder", "preferences.toml")
	p := LoadPreferences(path, "")
	p.Units = quantity.Units{Temperature: quantity.F, DecimalComma: true}
	p.Strong, p.ReducedMotion, p.SizePct = true, true, 150
	p.Mode, p.Whole, p.Ledger, p.Last = look.Dark, true, "/b \"a\"", "/x/é.toml"
	p.Opened("/x/b.toml")
	p.Opened("/x/a.toml")
	p.Opened("/x/b.toml")
	if len(p.Recent) != 2 || p.Recent[0] != "/x/b.toml" {
		t.Errorf("recent are %v", p.Recent)
	}
	p.LeftOut, p.LessonsOff = []string{"one.toml", "two\n.toml"}, []string{"steam"}
	if err := p.Save(); err != nil {
		t.Fatal(err)
	}
	got := LoadPreferences(path, "")
	got.read, p.read = nil, nil
	if !reflect.DeepEqual(got, p) {
		t.Errorf("%+v comes back as %+v", p, got)
	}
}

// What the toolkit's file held is taken over as far as it can be read. A list
// with a number in it made the window panic at every start.
func TestPreferencesOfBefore(t *testing.T) {
	t.Parallel()
	old := write(t, "preferences.json", `{"appearance": "dark", "batches left out": ["a.toml", 7, null], "last file": 3, "units": {"x": 1}, "whole plane": true, "window": 9}`)
	p := LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), old)
	if p.Mode != look.Dark || !p.Whole || p.Last != "" || len(p.LeftOut) != 1 || p.LeftOut[0] != "a.toml" || p.Units != (quantity.Units{}) {
		t.Errorf("taken over: %+v", p)
	}
	for _, broken := range []string{"", "{", "[1]", `{"units": `, "\x00\xff"} {
		if p := LoadPreferences("", write(t, "preferences.json", broken)); p.Whole || p.Last != "" {
			t.Errorf("%q is read as %+v", broken, p)
		}
	}
}

// One wrong line costs that line, and what a later Skep wrote stays.
func TestPreferencesAreReadLeniently(t *testing.T) {
	t.Parallel()
	path := write(t, "preferences.toml", "whole_plane = true\nlast_file = [oops\nledger_folder = \"/b\"\nlessons_left_out = [1, \"steam\"]\nof_tomorrow = 5\n")
	p := LoadPreferences(path, "")
	if !p.Whole || p.Ledger != "/b" || p.Last != "" || len(p.LessonsOff) != 0 && p.LessonsOff[0] != "steam" {
		t.Errorf("read: %+v", p)
	}
	if err := p.Save(); err != nil {
		t.Fatal(err)
	}
	if src, err := os.ReadFile(path); err != nil || !strings.Contains(string(src), "of_tomorrow = 5") {
		t.Errorf("the key of tomorrow is gone (%v):\n%s", err, src)
	}
}
