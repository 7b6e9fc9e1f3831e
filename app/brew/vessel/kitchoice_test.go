package vessel

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"skep/app/userfile"
	"skep/calc/design"
)

// kitStage is the Brew place for a person with two kits, on the first of them.
func kitStage(t *testing.T) (*scene, string) {
	t.Helper()
	s := newScene(t)
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
	k := s.vessel.open("")
	if !strings.Contains(k.choice.message.Text, "no kit of yours") || k.choice.rename.Visible() {
		t.Errorf("a design of no kit says %q", k.choice.message.Text)
	}
	k.choice.use(kitNamed(t, folder, "Kitchen kettle"))
	d := s.Design()
	if d.Kit.VesselL != 18 || d.Kit.SteamLPerH != 1.8 || s.Prefs.Kit != "Kitchen kettle" || k.choice.message.Text != "As your kit has it." {
		t.Fatalf("%+v, %q, %q", d.Kit, s.Prefs.Kit, k.choice.message.Text)
	}
	if !strings.Contains(k.choice.did.Text, "scale the beer") {
		t.Errorf("15 L in a kettle of 18 L draw no advice: %q", k.choice.did.Text)
	}
	s.typeInto(k.fields["kit.steam_l_per_h"], "1.4")
	if text := k.choice.message.Text; !strings.Contains(text, "boils away 1.4") || !strings.Contains(text, "1.8") || !k.choice.take.Visible() {
		t.Errorf("the difference is said as %q", text)
	}
	got := ""
	s.vessel.Differs(func(kit string) { got = kit })
	if got != "Kitchen kettle" {
		t.Errorf("the copy differs from %q", got)
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
	k := s.vessel.open("")
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
	if s.Design().Kit.Name != "Gate Field kettle" || !strings.Contains(c.did.Text, "keep the old name in their files") {
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
	if _, err := os.Stat(kit.Path); err == nil || !strings.Contains(c.message.Text, "keeps its own copy") {
		t.Errorf("removed, it says %q; %v", c.message.Text, err)
	}
	c.takeBack()
	if kitNamed(t, folder, "Gate Field kettle").Path != kit.Path || c.message.Text != "As your kit has it." {
		t.Errorf("put back, it says %q", c.message.Text)
	}
}

// A kit's file broken by hand is named with its line and left as it is; one changed
// since it was read is not written over.
func TestAKitFileBrokenByHandIsLeftAlone(t *testing.T) {
	s, folder := kitStage(t)
	kit := kitNamed(t, folder, "Kitchen kettle")
	k := s.vessel.open("")
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
	k = s.vessel.open("")
	if text := k.choice.did.Text; !strings.Contains(text, filepath.Base(kit.Path)+":3") {
		t.Errorf("a broken file is answered with %q", text)
	}
	k.choice.keepThese()
	if src, _ := os.ReadFile(kit.Path); string(src) != broken {
		t.Errorf("the broken file holds\n%s", src)
	}
}

// The water test is typed, its arithmetic stands there, and what came of it is one
// step of undo after which the copy differs from the kit.
func TestTheWaterTestFillsTheVesselIn(t *testing.T) {
	s, folder := kitStage(t)
	k := s.vessel.open("")
	k.choice.use(kitNamed(t, folder, "Kitchen kettle"))
	w := s.vessel.openWaterTest()
	fill := func(name, text string) {
		t.Helper()
		for _, p := range w.parts {
			for i, in := range p.part.Inputs {
				if in.Name == name {
					p.fields[i].SetText(text)
					return
				}
			}
		}
		t.Fatalf("there is no field for %s", name)
	}
	result := func(i int) string { return w.parts[i].result.Text }
	if !w.take.Disabled() {
		t.Error("nothing is measured, and it can be taken")
	}
	fill("bed_in_l", "6 L")
	if !strings.Contains(result(0), "missing yet") || !w.take.Disabled() {
		t.Errorf("half a measurement says %q", result(0))
	}
	fill("bed_out_l", "much")
	if result(0) == "" || !w.take.Disabled() {
		t.Errorf("nonsense says %q", result(0))
	}
	fill("bed_out_l", "5.3")
	if result(0) != "6.0 L − 5.3 L = 0.7 L stays behind." || w.take.Disabled() {
		t.Errorf("it says %q", result(0))
	}
	fill("ice_c", "33 °F")
	fill("boil_before_l", "12")
	fill("boil_after_l", "10.8")
	fill("boil_minutes", "1 h")
	w.keep()
	if got := s.Design().Kit; got.UnderTheBedL != 0.7 || got.ThermometerReadsHighK != 0.6 || got.SteamLPerH != 1.2 {
		t.Errorf("the vessel is %+v", got)
	}
	if text := s.vessel.kit.choice.message.Text; !strings.Contains(text, "under the bed 0.7 L, in the kit 1.2 L") {
		t.Errorf("the copy says %q", text)
	}
	if text := s.vessel.kit.choice.did.Text; !strings.Contains(text, "3 values") {
		t.Errorf("it says %q", text)
	}
	s.Undo()
	if got := s.Design().Kit.UnderTheBedL; got != 1.2 {
		t.Errorf("undone, %g L stay under the bed", got)
	}
	if w = s.vessel.openWaterTest(); w.parts[0].fields[0].Text != "6 L" {
		t.Error("what was typed is gone")
	}
}
