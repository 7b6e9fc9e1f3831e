package userfile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"skep/calc/design"
)

func kettle(name string, litres float64) design.KitFile {
	k := design.NewKit()
	k.Kit.Name, k.Kit.VesselL = name, litres
	return k
}

func addKit(t *testing.T, folder string, k design.KitFile) Kit {
	t.Helper()
	made, err := AddKit(folder, k)
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func kitNames(kits []Kit) string {
	var all []string
	for _, k := range kits {
		all = append(all, k.Name())
	}
	return strings.Join(all, ", ")
}

// A kit is made, read, changed, renamed, copied and removed; its file stays where
// it is, and a removed one is only moved aside.
func TestTheLifeOfAKit(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "skep", "kits")
	if kits, problems := Kits(folder); kits != nil || problems != nil {
		t.Fatalf("%v, %v", kits, problems)
	}
	k := addKit(t, folder, kettle(" The 18 L kettle ", 18))
	addKit(t, folder, kettle("barn", 60))
	if filepath.Base(k.Path) != "the-18-l-kettle.toml" || k.Name() != "The 18 L kettle" {
		t.Errorf("%s at %s", k.Name(), k.Path)
	}
	now := k.KitFile
	now.Kit.SteamLPerH, now.Kit.Name = 1.3, "Kettle"
	if k, _ = must(SaveKit(k, now))(t); k.Kit.SteamLPerH != 1.3 || k.Name() != "Kettle" {
		t.Errorf("%+v", k.Kit)
	}
	if _, err := copyKit(folder, k, "kettle "); err == nil {
		t.Error("a copy took the same name")
	}
	if c, err := copyKit(folder, k, "Kettle, boiled hard"); err != nil || c.Kit.SteamLPerH != 1.3 {
		t.Errorf("%v, %v", c, err)
	}
	kits, problems := Kits(folder)
	if got := kitNames(kits); got != "barn, Kettle, Kettle, boiled hard" || problems != nil {
		t.Errorf("%s, %v", got, problems)
	}
	to, err := RemoveKit(k)
	if err != nil || !strings.Contains(to, removedFolder) {
		t.Fatalf("%s, %v", to, err)
	}
	if kits, _ = Kits(folder); kitNames(kits) != "barn, Kettle, boiled hard" {
		t.Error(kitNames(kits))
	}
	if !strings.Contains(mustRead(t, to), "Kettle") {
		t.Error("the removed kit's text is gone")
	}
}

func must(k Kit, err error) func(t *testing.T) (Kit, error) {
	return func(t *testing.T) (Kit, error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return k, err
	}
}

// A kit's file broken by hand is named with its line and left alone; the others
// can be chosen.
func TestABrokenKitDoesNotTakeTheOthersWithIt(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	good := addKit(t, folder, kettle("good", 30))
	broken := filepath.Join(folder, "broken.toml")
	const text = "[kit]\nname = \"broken\"\nvessel_l = 3000\n"
	write(t, broken, text)
	write(t, filepath.Join(folder, "pair.toml"), "# by hand\n[kit]\nname = \"Good\"\n")
	write(t, filepath.Join(folder, "notes.txt"), "no kit")
	kits, problems := Kits(folder)
	if kitNames(kits) != "good" || len(problems) != 2 {
		t.Fatalf("%s, %v", kitNames(kits), problems)
	}
	for i, want := range []string{broken + ":3: ", "pair.toml:3: "} {
		if !strings.Contains(problems[i].Error(), want) {
			t.Errorf("%v, want %s", problems[i], want)
		}
	}
	if _, err := SaveKit(Kit{KitFile: good.KitFile, Path: broken}, good.KitFile); err == nil {
		t.Error("a broken file was written over")
	}
	// Changed by another program since it was read.
	other := strings.Replace(mustRead(t, good.Path), "vessel_l = 30", "vessel_l = 31", 1)
	write(t, good.Path, other)
	now := good.KitFile
	now.Kit.SteamLPerH = 3
	if _, err := SaveKit(good, now); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("%v", err)
	}
	if mustRead(t, broken) != text || mustRead(t, good.Path) != other {
		t.Error("a refused save changed a file")
	}
}

// A renamed kit remembers its name, also where a design that does not writes its values
// over it; it is found by that name, which no other kit can take; a copy is another kit.
func TestARenamedKitIsFoundByItsOldName(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	k := addKit(t, folder, kettle("Kettle", 30))
	now := k.KitFile
	now.Kit.Name = "Garage"
	k, err := SaveKit(k, now)
	if err != nil || k.Name() != "Garage" || k.Kit.Formerly != "Kettle" {
		t.Fatalf("%q, %q, %v", k.Name(), k.Kit.Formerly, err)
	}
	now = kettle("Garage", 31)
	if k, err = SaveKit(k, now); err != nil || k.Kit.VesselL != 31 || k.Kit.Formerly != "Kettle" {
		t.Fatalf("%+v, %v", k.Kit, err)
	}
	kits, _ := Kits(folder)
	if found, ok := KitNamed(kits, "kettle"); !ok || found.Path != k.Path {
		t.Errorf("the old name finds %q", found.Name())
	}
	if _, err := AddKit(folder, kettle("Kettle", 20)); err == nil || !strings.Contains(err.Error(), "Garage was called before") {
		t.Errorf("a new kit of the old name: %v", err)
	}
	copied := k.KitFile
	copied.Kit.Name = "Second"
	if second, err := AddKit(folder, copied); err != nil || second.Kit.Formerly != "" {
		t.Errorf("a copy: %+v, %v", second.Kit, err)
	}
	now = k.KitFile
	now.Kit.Name = "Kettle"
	if k, err = SaveKit(k, now); err != nil || k.Name() != "Kettle" {
		t.Errorf("back to the old name: %v", err)
	}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A person's own grain, honey and hops read back as entered and keep what a hand
// wrote; amounts and moments belong to a brew and stay out.
func TestTheShelfReadsBack(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "skep")
	g, h, hop := design.NewGrain(), design.NewHoney(), design.NewHop()
	g.Name, g.ExtractPct, g.ColourEBC, g.MassKg = "Barn pale", 78.5, 6, 4
	h.Name, h.MoisturePct, h.Raw, h.MassKg, h.Moment = "Heather of '26", 19.5, false, 0.45, design.MomentBoil
	hop.Name, hop.AlphaPct, hop.MassG, hop.When = "Fence", 4.1, 77, design.HopWhirlpool
	about := design.About{Note: "the neighbour's"}
	for _, err := range []error{AddGrain(folder, g, about), AddHoney(folder, h, about), AddHop(folder, hop, about)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	s := LoadShelf(folder)
	if len(s.Problems) > 0 || len(s.Grain) != 1 || len(s.Honey) != 1 || len(s.Hop) != 1 {
		t.Fatalf("%+v", s)
	}
	if got := s.Grain[0]; got.ExtractPct != 78.5 || got.ColourEBC != 6 || got.About != about {
		t.Errorf("%+v", got)
	}
	if got := s.Honey[0]; got.MoisturePct != 19.5 || got.Raw || got.Moment != design.NewHoney().Moment {
		t.Errorf("%+v", got)
	}
	if got := s.Hop[0]; got.AlphaPct != 4.1 || got.MassG != design.NewHop().MassG {
		t.Errorf("%+v", got)
	}
	before := mustRead(t, shelfPath(folder, GrainKind))
	g.Name = "barn PALE"
	if err := AddGrain(folder, g, about); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("%v", err)
	}
	g.Name, g.ExtractPct = "Lead", 500
	if err := AddGrain(folder, g, about); err == nil || mustRead(t, shelfPath(folder, GrainKind)) != before {
		t.Errorf("%v", err)
	}
}

// The same malt twice is said once, with its line, and the first counts; a broken
// file takes only its own kind away.
func TestAShelfWithMistakes(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	write(t, shelfPath(folder, GrainKind), "[[grain]]\nname = \"A\"\nextract_pct = 80\n\n[[grain]]\nname = \"A\"\nextract_pct = 70\n")
	write(t, shelfPath(folder, HopKind), "[[hop]]\nname = \"B\"\nalpha_pct = 300\n")
	write(t, shelfPath(folder, HoneyKind), "[[honey]]\nname = \"C\"\n")
	s := LoadShelf(folder)
	if len(s.Grain) != 1 || s.Grain[0].ExtractPct != 80 || len(s.Hop) != 0 || len(s.Honey) != 1 || len(s.Problems) != 2 {
		t.Fatalf("%+v", s)
	}
	for i, want := range []string{"grain.toml:6: ", "hop.toml:3: "} {
		if !strings.Contains(s.Problems[i].Error(), want) {
			t.Errorf("%v, want %s", s.Problems[i], want)
		}
	}
	hop := design.NewHop()
	hop.Name = "D"
	if err := AddHop(folder, hop, design.About{}); err == nil {
		t.Error("a broken file was added to")
	}
}

// copyKit writes a kit's values under another name, as a file of its own with all
// that stands in the first one.
func copyKit(folder string, k Kit, name string) (Kit, error) {
	as := k.KitFile
	as.Kit.Name = name
	return AddKit(folder, as)
}
