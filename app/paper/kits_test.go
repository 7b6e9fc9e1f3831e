package paper_test

import (
	"fmt"
	"testing"

	"skep/app/paper"
	"skep/assets"
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
					r := read(t, printed(t, ofKit(demo(t, demoName), litres, alter), paper.Options{Paper: p, Units: units}))
					if n := r.NumPage(); n != 2 {
						t.Errorf("%d pages, want 2", n)
					}
					inside(t, r, p)
				})
			}
		}
	}
}
