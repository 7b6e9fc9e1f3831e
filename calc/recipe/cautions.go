package recipe

import (
	"skep/calc/cautions"
	"skep/calc/design"
)

// Cautions is what can hurt someone in brewing a design.
func Cautions(d design.Design) cautions.Brew {
	of := cautions.Brew{Honey: len(d.Honey) > 0 || d.Package.Primer == "honey", Keg: d.Package.Vessel != "bottle"}
	for _, h := range d.Honey {
		of.LateHoney = of.LateHoney || h.Moment == design.MomentFermenting && h.MassKg > 0
	}
	return of
}
