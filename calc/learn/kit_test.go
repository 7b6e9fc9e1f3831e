package learn

import (
	"testing"

	"skep/calc/design"
)

// What was learnt on kit A does not act on kit B, nor does B's batch teach A; what
// belongs to a strain or the person goes along.
func TestALessonBelongsToItsKit(t *testing.T) {
	t.Parallel()
	on := func(name string, vesselL float64) design.Design {
		d := design.New()
		d.Kit.Name, d.Kit.VesselL = name, vesselL
		y := design.NewYeast()
		y.Name = "Clean ale"
		d.Yeast = []design.Yeast{y}
		return d
	}
	batch := func(id string, kit Kit, efficiency float64) Batch {
		return Batch{ID: id, Measured: Measured{
			Kit: kit, EfficiencyPct: value(efficiency, 0.5), SteamLPerH: value(1.2, 0.1), RestOffsetC: value(0.6, 0.1),
			StrainPct: value(80, 1), MaltRatio: 1, Strain: "Clean ale", StrainLow: 73, StrainHigh: 78, DrynessOffset: value(6, 3)}}
	}
	a, b := Kit{[]string{"Kettle"}, 18}, Kit{[]string{"Shed"}, 60}
	all := []Batch{batch("1", a, 64), batch("2", a, 65), batch("3", b, 84), batch("4", b, 85)}
	at := map[string]float64{}
	for _, ref := range []design.Design{on("Kettle", 18), on("shed ", 60)} {
		lessons := Learn(all, ref)
		for _, l := range lessons.Lessons {
			if l.Key == Efficiency {
				at[group(ref.Kit.Name)] = l.Posterior.Mean
			}
			if want := 4; l.ofKit() {
				want = 2
				if len(l.Evidence) != want {
					t.Errorf("%s on %s heard %d batches", l.Key, ref.Kit.Name, len(l.Evidence))
				}
			}
		}
		taught, _, _ := lessons.Apply(ref, nil)
		if taught.Kit.MashEfficiencyPct == ref.Kit.MashEfficiencyPct {
			t.Errorf("nothing was learnt of %s", ref.Kit.Name)
		}
		for _, other := range []design.Design{on("Barn", 18), on("Barn", 60)} {
			taught, doubts, used := lessons.Apply(other, nil)
			if taught.Kit != other.Kit || doubts.RestShiftC != 0 || doubts.EfficiencySD != 0 {
				t.Errorf("%s teaches %s: %+v", ref.Kit.Name, other.Kit.Name, taught.Kit)
			}
			if taught.Yeast[0] == other.Yeast[0] || !doubts.Dryness.Known {
				t.Errorf("strain and palate did not go along: %v", used)
			}
		}
	}
	if !(at["kettle"] < 70 && at["shed"] > 79) {
		t.Errorf("efficiencies %v", at)
	}
}

// Kits without a name, as older files have them, are told apart by the vessel.
func TestKitsWithoutANameGoByTheirVessel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, b Kit
		same bool
	}{
		{Kit{[]string{""}, 30}, Kit{[]string{""}, 30}, true}, {Kit{[]string{""}, 30}, Kit{[]string{""}, 18}, false}, {Kit{[]string{"Club"}, 30}, Kit{[]string{""}, 30}, true},
		{Kit{[]string{"Club"}, 30}, Kit{[]string{"club "}, 18}, true}, {Kit{[]string{"Club"}, 30}, Kit{[]string{"Shed"}, 30}, false},
		{Kit{[]string{"Club", "Shed"}, 30}, Kit{[]string{"shed"}, 30}, true}, {Kit{[]string{"Club", "Shed"}, 30}, Kit{[]string{"Garage", "shed"}, 30}, false},
	} {
		if c.a.Is(c.b) != c.same || c.b.Is(c.a) != c.same {
			t.Errorf("%v is %v: want %v", c.a, c.b, c.same)
		}
	}
}

// A kit that is given another name keeps what its batches have taught, for designs that
// know it by the new name and for those that still have the old one.
func TestLessonsFollowARenamedKit(t *testing.T) {
	t.Parallel()
	on := func(kit design.Kit) design.Design {
		d := design.New()
		d.Kit = kit
		d.Yeast = []design.Yeast{design.NewYeast()}
		return d
	}
	old := design.New().Kit
	old.Name = "Kettle"
	renamed := old
	renamed.Rename("Garage")
	again := renamed
	again.Rename("Barn")
	if again.Name != "Barn" || again.Formerly != "Kettle; Garage" {
		t.Fatalf("%q, %q", again.Name, again.Formerly)
	}
	batch := func(id string, kit design.Kit, efficiency float64) Batch {
		return Batch{ID: id, Measured: Measured{Kit: kitOf(kit), EfficiencyPct: value(efficiency, 0.5), MaltRatio: 1}}
	}
	all := []Batch{batch("1", old, 62), batch("2", renamed, 63), batch("3", again, 62)}
	for _, ref := range []design.Kit{old, again} {
		lessons := Learn(all, on(ref))
		heard := 0
		for _, l := range lessons.Lessons {
			if l.Key == Efficiency {
				heard = len(l.Evidence)
			}
		}
		if taught, _, _ := lessons.Apply(on(ref), nil); heard != 3 || taught.Kit.MashEfficiencyPct >= ref.MashEfficiencyPct {
			t.Errorf("%s heard %d of 3 batches and yields %g %%", ref.Name, heard, taught.Kit.MashEfficiencyPct)
		}
	}
}
