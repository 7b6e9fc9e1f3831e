package brew

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"skep/app/userfile"
	"skep/calc/design"
)

// kitStage is the Brew place for a person with two kits, on the first of them.
func kitStage(t *testing.T) (*brewScene, string) {
	t.Helper()
	s := brewStage(t)
	s.OwnFolder = t.TempDir()
	folder := userfile.KitsIn(s.OwnFolder)
	for name, litres := range map[string]float64{"Shed kettle": 30, "Kitchen kettle": 18} {
		k := design.NewKit()
		k.Kit.Name, k.Kit.VesselL, k.Kit.SteamLPerH = name, litres, litres/10
		if _, err := userfile.AddKit(folder, k); err != nil {
			t.Fatal(err)
		}
	}
	return s, folder
}

func kitNamed(t *testing.T, folder, name string) userfile.Kit {
	t.Helper()
	kits, problems := userfile.Kits(folder)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	k, ok := userfile.KitNamed(kits, name)
	if !ok {
		t.Fatalf("there is no kit %q", name)
	}
	return k
}

// A kit is chosen, its copy changed, and the difference taken either way; each is
// undone.
func TestTheCopyOfAKitSaysWhereItDiffers(t *testing.T) {
	s, folder := kitStage(t)
	k := s.brew.openKit("")
	if !strings.Contains(k.choice.told.Text, "no kit of yours") || k.choice.rename.Visible() {
		t.Errorf("a design of no kit says %q", k.choice.told.Text)
	}
	k.choice.use(kitNamed(t, folder, "Kitchen kettle"))
	d := s.Design()
	if d.Kit.VesselL != 18 || d.Kit.SteamLPerH != 1.8 || s.Prefs.Kit != "Kitchen kettle" || k.choice.told.Text != "As your kit has it." {
		t.Fatalf("%+v, %q, %q", d.Kit, s.Prefs.Kit, k.choice.told.Text)
	}
	if !strings.Contains(k.choice.did.Text, "scale the beer") {
		t.Errorf("15 L in a kettle of 18 L draw no advice: %q", k.choice.did.Text)
	}
	s.typeInto(k.fields["kit.steam_l_per_h"], "1.4")
	if text := k.choice.told.Text; !strings.Contains(text, "boils away 1.4") || !strings.Contains(text, "1.8") || !k.choice.take.Visible() {
		t.Errorf("the difference is said as %q", text)
	}
	if !strings.Contains(s.brew.Greeting(), "Kitchen kettle") {
		t.Errorf("who comes to Brew is greeted with %q", s.brew.Greeting())
	}
	k.choice.keepThese()
	if got := kitNamed(t, folder, "Kitchen kettle").Kit.SteamLPerH; got != 1.4 || k.choice.keep.Visible() {
		t.Errorf("the kit has %g L/h", got)
	}
	k.choice.takeBack()
	if got := kitNamed(t, folder, "Kitchen kettle").Kit.SteamLPerH; got != 1.8 {
		t.Errorf("taken back, the kit has %g L/h", got)
	}
	k.choice.takeKits()
	if got := s.Design().Kit.SteamLPerH; got != 1.8 {
		t.Errorf("the design has %g L/h", got)
	}
	s.Undo()
	if got := s.Design().Kit.SteamLPerH; got != 1.4 {
		t.Errorf("undone, the design has %g L/h", got)
	}
	s.Undo()
	s.Undo()
	if got := s.Design().Kit; got.VesselL != 30 || got.Name != "" {
		t.Errorf("choosing a kit is not one step of undo: %+v", got)
	}
}

// Kits are made, renamed and removed, and a kit is never removed while a design is
// unsaved on it.
func TestKitsAreMadeRenamedAndRemoved(t *testing.T) {
	s, folder := kitStage(t)
	k := s.brew.openKit("")
	c := k.choice
	name := func(text string) { c.name.SetText(text); c.name.OnSubmitted(text) }
	c.askAdd()
	name("shed KETTLE")
	if !strings.Contains(c.did.Text, "among your kits already") || !c.nameRow.Visible() {
		t.Errorf("a name twice is answered with %q", c.did.Text)
	}
	name("Club kettle")
	if s.Design().Kit.Name != "Club kettle" || kitNamed(t, folder, "Club kettle").Kit.VesselL != s.Design().Kit.VesselL || c.nameRow.Visible() {
		t.Errorf("the design is on %q: %q", s.Design().Kit.Name, c.did.Text)
	}
	c.askRename()
	name("Gate Field kettle")
	if s.Design().Kit.Name != "Gate Field kettle" || !strings.Contains(c.did.Text, "keep the old name") {
		t.Errorf("renamed, the design is on %q: %q", s.Design().Kit.Name, c.did.Text)
	}
	kit := kitNamed(t, folder, "Gate Field kettle")
	c.remove()
	if !strings.Contains(c.did.Text, "not saved") || kitNamed(t, folder, "Gate Field kettle").Path != kit.Path {
		t.Errorf("with the design unsaved it says %q", c.did.Text)
	}
	if err := s.Editor.SaveOver(filepath.Join(t.TempDir(), "mine.toml")); err != nil {
		t.Fatal(err)
	}
	c.remove()
	if _, err := os.Stat(kit.Path); err == nil || !strings.Contains(c.told.Text, "keeps its own copy") {
		t.Errorf("removed, it says %q; %v", c.told.Text, err)
	}
	c.takeBack()
	if kitNamed(t, folder, "Gate Field kettle").Path != kit.Path || c.told.Text != "As your kit has it." {
		t.Errorf("put back, it says %q", c.told.Text)
	}
}

// A kit's file broken by hand is named with its line and left as it is; one changed
// since it was read is not written over.
func TestAKitFileBrokenByHandIsLeftAlone(t *testing.T) {
	s, folder := kitStage(t)
	kit := kitNamed(t, folder, "Kitchen kettle")
	k := s.brew.openKit("")
	k.choice.use(kit)
	s.typeInto(k.fields["kit.steam_l_per_h"], "1.4")
	other := "format = 1\n[kit]\nname = \"Kitchen kettle\"\nvessel_l = 19\n"
	if err := os.WriteFile(kit.Path, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	k.choice.keepThese()
	if src, _ := os.ReadFile(kit.Path); string(src) != other || !strings.Contains(k.choice.did.Text, "changed by another program") {
		t.Errorf("it says %q and the file holds\n%s", k.choice.did.Text, src)
	}
	broken := "[kit]\nname = \"Kitchen kettle\"\nvessel_l = much\n"
	if err := os.WriteFile(kit.Path, []byte(broken), 0o600); err != nil {
		t.Fatal(err)
	}
	k = s.brew.openKit("")
	if text := k.choice.did.Text; !strings.Contains(text, filepath.Base(kit.Path)+":3") {
		t.Errorf("a broken file is answered with %q", text)
	}
	k.choice.keepThese()
	if src, _ := os.ReadFile(kit.Path); string(src) != broken {
		t.Errorf("the broken file holds\n%s", src)
	}
}
