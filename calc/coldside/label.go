package coldside

import "strings"

// Sulphite as SO2. From 10 mg/L on it has to be named in full (Irish and British
// food authorities, read). Yeast makes some itself: 4.2 mg/L in the mean of 195
// beers, 4.6 % of them above 10 (Lachenmeier and Nerlich, BrewingScience 59:114,
// 2006).
const (
	SulphiteNamedMgPerL = 10.0
	SulphiteOfYeast     = 4.2 // mg/L
	// SulphiteShare is SO2 in potassium metabisulphite by mass: 2 x 64.06 of
	// 222.32 (atomic masses).
	SulphiteShare = 2 * 64.064 / 222.324
)

// SulphiteMgPerL is SO2 in beer to which potassium metabisulphite was added,
// mg/L: what the yeast makes in the mean and all that was added, as if none were
// lost.
func SulphiteMgPerL(metabisulphiteMgPerL float64) float64 {
	return SulphiteOfYeast + SulphiteShare*max(0, metabisulphiteMgPerL)
}

// SulphiteNamed says whether so much has to be named on a label.
func SulphiteNamed(mgPerL float64) bool { return mgPerL > SulphiteNamedMgPerL }

// Cereals that a label names (EU 1169/2011, from memory).
const (
	Barley = "barley"
	Wheat  = "wheat"
	Oats   = "oats"
	Rye    = "rye"
)

// cereal words by which a grain tells what it is.
var cerealWords = []struct {
	cereal string
	words  []string
}{
	{Wheat, []string{"wheat", "spelt", "emmer", "einkorn"}},
	{Oats, []string{"oat"}},
	{Rye, []string{"rye"}},
}

// notCereals are lines of a grist without any of the four.
var notCereals = []string{"sugar", "honey", "syrup", "dextrose", "molasses", "treacle", "maize", "corn", "rice", "sorghum", "millet", "buckwheat", "quinoa"}

// Cereals are the cereals to name, of grains by their names, in the order
// barley, wheat, oats, rye. What says nothing else is taken for malted barley:
// naming one too many harms nobody. A name is a guess; the maltster's label
// decides.
func Cereals(grains []string) []string {
	found := map[string]bool{}
	for _, name := range grains {
		name = strings.ToLower(name)
		any := false
		for _, w := range notCereals {
			any = any || strings.Contains(name, w)
		}
		if any {
			continue
		}
		for _, c := range cerealWords {
			for _, w := range c.words {
				if strings.Contains(name, w) {
					found[c.cereal], any = true, true
				}
			}
		}
		if !any || strings.Contains(name, Barley) {
			found[Barley] = true
		}
	}
	var out []string
	for _, c := range []string{Barley, Wheat, Oats, Rye} {
		if found[c] {
			out = append(out, c)
		}
	}
	return out
}
