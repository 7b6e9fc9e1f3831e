package paper_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"skep/app/paper"
	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/measured"
)

// How many days apart equal readings must lie is said alike by the prediction, which
// the commands print, by the sheet, and by what the window follows a batch with; and
// what is slow in a beer asks for more.
func TestTheSameDaysEverywhere(t *testing.T) {
	t.Parallel()
	asked := map[string]float64{}
	for name, change := range map[string]func(d *design.Design){
		"ordinary":        func(d *design.Design) { d.Honey = nil },
		"raw honey":       func(d *design.Design) { d.Honey[0].Raw, d.Package.RatedVolumes = true, 3 },
		"a dextrin eater": func(d *design.Design) { d.Honey, d.Yeast[0].EatsDextrin = nil, true },
		"hops added cold": func(d *design.Design) {
			d.Honey, d.Hop = nil, append(d.Hop, design.Hop{Name: "Cascade", AlphaPct: 6, MassG: 60, When: design.HopCold})
		},
		"hardly any room": func(d *design.Design) { d.Honey, d.Package.VolumesCO2 = nil, d.Package.RatedVolumes-0.1 },
	} {
		d := demotest.Design(t, assets.DemoMiddle)
		d.Yeast = d.Yeast[:1]
		change(&d)
		p, err := calc.NewEngine().Predict(d)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		asked[name] = p.EqualReadingsDays
		var f follow.Follower
		b, err := f.Follow(d, time.Time{}, measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got := b.Bottle.Guard.EqualReadingsDays; got != p.EqualReadingsDays {
			t.Errorf("%s: followed %g days, predicted %g", name, got, p.EqualReadingsDays)
		}
		said := fmt.Sprintf("readings of the warm beer %.0f days apart", p.EqualReadingsDays)
		if sheet := strings.Join(strings.Fields(text(t, d, paper.Options{})), " "); !strings.Contains(sheet, said) {
			t.Errorf("%s: the sheet does not say %q", name, said)
		}
	}
	t.Log(asked)
	if asked["ordinary"] != 2 || asked["raw honey"] < 5 || asked["a dextrin eater"] < 5 || asked["hops added cold"] < 3 || asked["hardly any room"] <= 2 {
		t.Errorf("days asked for: %v", asked)
	}
}
