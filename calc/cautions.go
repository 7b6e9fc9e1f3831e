package calc

import "skep/calc/design"

// cautions are what can hurt someone in brewing this design, in the order of
// the day. The tool repeats each at its step; local law and the maker's
// instructions come first.
func (b *Brew) cautions(p *Prediction) []string {
	c := []string{
		"hot liquor, wort and steam scald at once: long sleeves, closed shoes, nobody small near; let go of nothing hot",
		"a full vessel or a wet grain basket is a lift for two people or none: run off, do not carry",
		"mains electricity beside water: a residual-current device, dry hands, the maker's instructions for the vessel",
		"cleaners are caustic or acid: gloves and eye protection, one at a time, never mixed",
		"fermentation fills a closed room or cellar with CO2: air it before going in",
	}
	late := false
	for _, h := range b.d.Honey {
		late = late || h.Moment == design.MomentFermenting && h.MassKg > 0
	}
	if late {
		c = append(c, "honey in working beer foams over: leave headroom, add it little by little, and use an airlock that cannot block")
	}
	if len(b.d.Honey) > 0 || b.d.Package.Primer == "honey" {
		c = append(c, "no honey for infants under twelve months, not even cooked; some people are allergic to it")
	}
	if b.d.Package.Vessel == "bottle" {
		c = append(c, "glass under pressure: bottle only after the same gravity on two readings days apart, in sound bottles made for it and within their rating")
	}
	return append(c, "this beer holds alcohol: age limits, driving and pregnancy as local law and medical advice have it")
}
