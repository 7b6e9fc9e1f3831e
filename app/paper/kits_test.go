package paper_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"skep/app/paper"
	"skep/assets"
	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/plotting/sheet"
)

// ofKit is a design brewed in a vessel for so many litres, its grist, honey and hops
// by the same share.
func ofKit(d design.Design, litres float64, alter func(*design.Design)) design.Design {
	d = d.Clone()
	share := litres / d.Batch.IntoFermenterL
	d.Batch.IntoFermenterL = litres
	d.Kit.VesselL, d.Kit.FermenterL = 2*litres, 1.6*litres
	d.Kit.HeaterW = 1000 + 60*litres
	for i := range d.Grain {
		d.Grain[i].MassKg *= share
	}
	for i := range d.Honey {
		d.Honey[i].MassKg *= share
	}
	for i := range d.Hop {
		d.Hop[i].MassG *= share
	}
	if alter != nil {
		alter(&d)
	}
	return d
}

// TestTwoPages: any demonstration in any kit is on two pages, in metric and in US
// units.
func TestTwoPages(t *testing.T) {
	t.Parallel()
	us := quantity.Units{Temperature: quantity.F, Volume: quantity.USGallon, Mass: quantity.Lb, Colour: quantity.SRM}
	kits := map[string]func(*design.Design){
		"plain": nil,
		"with its water": func(d *design.Design) {
			d.Water = design.NewWater()
			d.Water.Bicarbonate, d.Water.Calcium, d.Water.GypsumG, d.Water.CalciumChlorideG = 250, 60, 2, 1.5
			ph := 5.4
			d.Water.MashPHWanted = &ph
		},
		"three rests, three hops, a keg": func(d *design.Design) {
			d.Mash.Rest = []design.Rest{{TemperatureC: 55, Minutes: 10}, {TemperatureC: 65, Minutes: 50}, {TemperatureC: 72, Minutes: 15}}
			hop := d.Hop[0]
			hop.Minutes = 15
			late := hop
			late.When = design.HopWhirlpool
			d.Hop = append(d.Hop, hop, late)
			d.Package.Vessel = "keg"
		},
		"a small vessel, a warm tap, a coarse crush": func(d *design.Design) {
			d.Kit.VesselL, d.Kit.FermenterL, d.Kit.TapC = 1.1*d.Batch.IntoFermenterL, 1.05*d.Batch.IntoFermenterL, 26
			d.Kit.HeaterW = 500
			d.Crush = &design.Crush{ByEye: "coarse"}
		},
	}
	for name, alter := range kits {
		for _, demoName := range assets.Demos() {
			for _, litres := range []float64{5, 60} {
				p, units := sheet.A4, quantity.Units{}
				if litres < 10 {
					p, units = sheet.Letter, us
				}
				t.Run(fmt.Sprint(name, " ", demoName, " ", litres, " L ", p.Name), func(t *testing.T) {
					t.Parallel()
					r := read(t, printed(t, ofKit(demotest.Design(t, demoName), litres, alter), paper.Options{Paper: p, Units: units}))
					if n := r.NumPage(); n != 2 {
						t.Errorf("%d pages, want 2", n)
					}
					inside(t, r, p)
				})
			}
		}
	}
}

// TestStart: with an hour to begin at every step up to the pitching has its own, by
// the sums of heating, rests, boil and run-off; with a day too, the fermenter has
// days. An hour that nobody can read is refused.
func TestStart(t *testing.T) {
	t.Parallel()
	start, err := paper.ParseStart("2026-12-06 9:00", time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	d := demotest.Design(t, assets.DemoMiddle)
	got := text(t, d, paper.Options{Start: start})
	// Milled 15, drawn 10, 22 to the strike, five portions: mashed in at 9:46, the rest
	// from 9:51, an hour of it, and so on.
	for _, want := range []string{"3. Mash-in, 09:46", "4. Mash rest, 09:51", "5. Sparge, 10:51", "brewed 2026-12-06", "60 min, 11:40", "0 min, 12:40", "Tue 8, ", "Fri 11,"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	hours, err := paper.ParseStart("9.00", time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	if got := text(t, d, paper.Options{Start: hours}); !strings.Contains(got, "Mash-in, 09:46") || strings.Contains(got, "Tue 8") || strings.Contains(got, "2001") {
		t.Errorf("an hour alone: %s", got)
	}
	for _, wrong := range []string{"soon", "25:00", "2026-13-01 9:00", "9"} {
		if s, err := paper.ParseStart(wrong, time.UTC); err == nil {
			t.Errorf("%q is read as %v", wrong, s)
		}
	}
	r := read(t, printed(t, d, paper.Options{Start: start}))
	if r.NumPage() != 2 {
		t.Errorf("%d pages", r.NumPage())
	}
}

// TestNoKeyNames: paper names no key of the design file.
func TestNoKeyNames(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Boil.Minutes, d.Package.RatedVolumes, d.Package.VolumesCO2 = 0, 3, 3.4
	d.Kit.VesselL, d.Kit.FermenterL, d.Kit.TapC = 14, 14, 28
	got := text(t, d, paper.Options{})
	for _, k := range design.Keys() {
		if last := k.Path[strings.LastIndex(k.Path, ".")+1:]; strings.Contains(last, "_") && strings.Contains(got, last) {
			t.Errorf("%s stands on paper", last)
		}
	}
	if found := regexp.MustCompile(`\b[a-z]+\.[a-z_]+\b`).FindString(got); found != "" {
		t.Errorf("%q stands on paper", found)
	}
}
