package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// Course is the fermentation that a prediction leads to, hour by hour with the
// doubt of its clock, for the curve on the sheet. It starts from the wort as
// predicted (which holds the honey of the hot side and of pitching already) and
// takes the middle of the strain's range.
func Course(d design.Design, p calc.Prediction) (ferment.Course, ferment.CourseBands, error) {
	in := fermentInput(d, p)
	course, err := ferment.Run(in)
	if err != nil {
		return course, ferment.CourseBands{}, err
	}
	timing, err := ferment.NewTiming(in)
	if err != nil {
		return course, ferment.CourseBands{}, err
	}
	return course, timing.Course(&course), nil
}

func fermentInput(d design.Design, p calc.Prediction) ferment.Input {
	w := p.Wort
	wort := sugar.Spectrum{
		Glucose: w.Glucose.Mid, Fructose: w.Fructose.Mid, Sucrose: w.Sucrose.Mid,
		Maltose: w.Maltose.Mid, Maltotriose: w.Maltotriose.Mid, Dextrin: w.Dextrin.Mid,
	}
	all := density.GramsPerLitre(density.PlatoFromSG(p.OriginalGravitySG.Mid))
	wort.Other = math.Max(0, all-wort.Total())
	in := ferment.Input{Wort: wort}
	if len(d.Yeast) > 0 {
		y := d.Yeast[0]
		in.Take = yeast.FromAttenuation((y.AttenuationLowPct+y.AttenuationHighPct)/2, mash.Reference())
		in.TemperatureC, in.PitchBillionPerL = y.TemperatureC, y.CellsBillionPerL
	}
	litres := d.Batch.IntoFermenterL
	for _, h := range d.Honey {
		if h.Moment != design.MomentFermenting || !(h.MassKg > 0) || !(litres > 0) {
			continue
		}
		kg := honey.Extract(h.MassKg, h.MoisturePct, honey.Blossom, honey.FermentableShareMid)
		in.Additions = append(in.Additions, ferment.Addition{
			AfterHeight: true, Hours: h.HoursAfterHeight, Sugars: kg.Times(1000 / litres),
			Fermentable: (kg.Total() - kg.Dextrin - kg.Other) / kg.Total(),
			VolumeShare: honey.VolumeL(h.MassKg, h.MoisturePct, 20) / litres,
		})
	}
	return in
}
