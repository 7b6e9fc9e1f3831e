package coldside

// Way is how a sweetened beer is kept from fermenting again.
type Way string

// The ways, the surest first.
const (
	Unfermentable Way = "unfermentable" // lactose and the like: no yeast takes it; lactose is milk, an allergen
	ColdKeg       Way = "cold-keg"      // sweetened in the keg and kept cold: slowed, and the keg vents
	Pasteurised   Way = "pasteurised"   // yeast killed by heat, the enzymes of some strains not
	Sorbate       Way = "sorbate"       // with sulphite, in a keg: keeps few cells from growing, stops no active yeast
)

// Ways are those open to a package. Sorbate is never relied on in a bottle, and
// heat is out for closed bottles of more than packaging.HeatableVolumes.
func Ways(bottle bool, heatable bool) []Way {
	out := []Way{Unfermentable}
	if !bottle {
		return append(out, ColdKeg, Pasteurised, Sorbate)
	}
	if heatable {
		out = append(out, Pasteurised)
	}
	return out
}

// SorbateMgPerL is the most sorbic acid in kegged beer with added sugar (EU rules
// on additives, from memory; the dose in wine is 200 to 300): it halts no active
// yeast.
const SorbateMgPerL = 200.0
