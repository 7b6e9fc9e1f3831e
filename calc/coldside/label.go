package coldside

import (
	"strings"

	"skep/calc/message"
)

// SulphiteNamedMgPerL is the sulphite, as SO2, above which it has to be named in
// full (Irish and British food authorities, read). Yeast makes some itself: 4.2
// mg/L in the mean of 195 beers, 4.6 % of them above 10 (Lachenmeier and Nerlich,
// BrewingScience 59:114, 2006), so a beer may need it without any added.
const SulphiteNamedMgPerL = 10.0

// Cereals that a label names (EU 1169/2011, from memory).
const (
	Barley = "barley"
	Wheat  = "wheat"
	Oats   = "oats"
	Rye    = "rye"
)

// cereal words by which a grain tells what it is, in the languages of the program.
var cerealWords = []struct {
	cereal string
	words  []string
}{
	{Wheat, []string{"wheat", "spelt", "emmer", "einkorn", "weizen", "dinkel", "pszen", "orkisz", "płaskur"}},
	{Oats, []string{"oat", "hafer", "owies", "owsian"}},
	{Rye, []string{"rye", "roggen", "żyt"}},
}

// notCereals are lines of a grist without any of the four.
var notCereals = []string{"sugar", "honey", "syrup", "dextrose", "molasses", "treacle", "maize", "corn", "rice", "sorghum", "millet", "buckwheat", "quinoa",
	"zucker", "honig", "sirup", "melasse", "mais", "reis", "hirse", "buchweizen", "cukier", "miód", "syrop", "melas", "kukurydz", "ryż", "proso", "gryk"}

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

// tainted are words of honeys that can hold grayanotoxins: of rhododendron and
// its kin, from the coasts of the Black Sea, Nepal and Appalachia. 5 g of one
// sufficed (Hessian ministry 2010, second-hand); signs come within minutes to two
// hours and are rarely fatal (FDA, Bad Bug Book, read). Fermenting is not known to
// destroy them.
var tainted = []string{"rhododendron", "azalea", "laurel", "black sea", "pontic", "nepal", "mad honey", "alpenrose", "różanecz"}

// Tainted says whether a honey's name tells of such an origin.
func Tainted(name string) bool {
	name = strings.ToLower(name)
	for _, w := range tainted {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}

// Named is a list of cereals as a person reads it.
func Named(cereals []string) message.Message {
	var list message.Message
	for _, c := range cereals {
		name := message.Plain(c)
		switch c {
		case Barley:
			name = message.New("barley")
		case Wheat:
			name = message.New("wheat")
		case Oats:
			name = message.New("oats")
		case Rye:
			name = message.New("rye")
		}
		if list.Empty() {
			list = name
		} else {
			list = message.New("{list}, {name}", list, name)
		}
	}
	return list
}
