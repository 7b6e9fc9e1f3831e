package honey

import (
	"fmt"

	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/sugar"
)

// Kind is what the bees gathered.
type Kind int

const (
	Blossom  Kind = iota // nectar honey; the default
	Heather              // nectar honey with more water allowed; composition as blossom
	Honeydew             // from the honeydew of trees: less simple sugar, more of the higher kinds
)

func (k Kind) String() string {
	switch k {
	case Blossom:
		return "blossom"
	case Heather:
		return "heather"
	case Honeydew:
		return "honeydew"
	}
	return fmt.Sprintf("kind %d", int(k))
}

// The share of a blossom honey's solids that a brewing yeast ferments. The
// band is 10 to 90; SD is the one standard deviation used for draws.
const (
	FermentableShareLow  = 0.89
	FermentableShareMid  = 0.93
	FermentableShareHigh = 0.96
	FermentableShareSD   = 0.02
)

// Legal limits (directive 2001/110/EC), % by mass of the honey.
const (
	LegalMoisturePct         = 20.0
	LegalHeatherMoisturePct  = 23.0
	LegalBlossomMonosPct     = 60.0 // fructose + glucose at least
	LegalHoneydewMonosPct    = 45.0
	LegalSucrosePct          = 5.0  // with exceptions up to 15
	SurveyedMoistureMeanPct  = 17.2 // White 1962, standard deviation 1.46
	surveyedMoistureLeastPct = 13.4
	surveyedMoistureMostPct  = 22.9
)

// analysis is a survey mean, % by mass of honey.
type analysis struct {
	fructose, glucose, sucrose, maltoseType, higher, waterPct float64
	// fermentable is the share of the solids that yeast takes.
	fermentable float64
}

// White 1962: 490 US honeys, and the survey's 14 honeydew honeys (from
// memory). What the survey calls maltose is every reducing disaccharide: part
// of it (kojibiose, nigerose, turanose and so on) does not ferment, and that
// part is set so that all that ferments is the fermentable share.
//
// Honeydew's share (0.79) is derived: simple sugars and, as in blossom honey,
// some four fifths of the maltose type.
func analysisOf(kind Kind) analysis {
	if kind == Honeydew {
		return analysis{
			fructose: 31.8, glucose: 26.1, sucrose: 0.8, maltoseType: 8.8, higher: 4.7,
			waterPct: 16.3, fermentable: 0.79,
		}
	}
	return analysis{
		fructose: 38.2, glucose: 31.3, sucrose: 1.3, maltoseType: 7.3, higher: 1.5,
		waterPct: 17.2, fermentable: FermentableShareMid,
	}
}

// FermentableShare gives the low, middle and high share of the solids that
// ferments, by kind. A honeydew's is as much below a blossom honey's at every
// point of the band, and wider by half.
func FermentableShare(kind Kind) (low, mid, high float64) {
	mid = analysisOf(kind).fermentable
	low, high = mid+FermentableShareLow-FermentableShareMid, mid+FermentableShareHigh-FermentableShareMid
	if kind == Honeydew {
		low, high = mid-1.5*(mid-low), mid+1.5*(high-mid)
	}
	return low, mid, high
}

// Composition gives the solids of honey by kind, as shares that sum to 1. The
// surveys give shares of the whole honey; of the solids they hardly depend on
// moisture, so moisturePct is only checked.
//
// Glucose, fructose, sucrose and maltose together are the fermentable share.
// Unfermentable disaccharides and higher sugars stand under Dextrin, acids,
// ash, protein and what the analyses leave unnamed under Other.
func Composition(moisturePct float64, kind Kind) (sugar.Spectrum, error) {
	if err := CheckMoisture(moisturePct); err != nil {
		return sugar.Spectrum{}, err
	}
	_, mid, _ := FermentableShare(kind)
	return Solids(kind, mid), nil
}

// Solids is [Composition] with a fermentable share of one's own (0 to 1, held
// there), as a draw of its doubt needs it: all that ferments is scaled
// together, and so is the rest.
func Solids(kind Kind, fermentableShare float64) sugar.Spectrum {
	a := analysisOf(kind)
	solids := 100 - a.waterPct
	s := sugar.Spectrum{
		Fructose: a.fructose / solids,
		Glucose:  a.glucose / solids,
		Sucrose:  a.sucrose / solids,
	}
	maltoseType := a.maltoseType / solids
	s.Maltose = min(a.fermentable-s.Simple(), maltoseType)
	ferments := s.Sugars()
	s.Dextrin = maltoseType - s.Maltose + a.higher/solids
	s.Other = 1 - ferments - s.Dextrin

	f := min(max(fermentableShare, 0), 1)
	up, down := f/ferments, (1-f)/(1-ferments)
	return sugar.Spectrum{
		Glucose: s.Glucose * up, Fructose: s.Fructose * up, Sucrose: s.Sucrose * up,
		Maltose: s.Maltose * up, Dextrin: s.Dextrin * down, Other: s.Other * down,
	}
}

// SolidsKg is the extract that honey brings: mass less its water.
func SolidsKg(massKg, moisturePct float64) float64 { return massKg * (1 - moisturePct/100) }

// VolumeL is the volume of massKg of honey.
func VolumeL(massKg, moisturePct, temperatureC float64) float64 {
	return massKg / DensityKgL(moisturePct, temperatureC)
}

// Findings says in words where a honey lies outside the law or the survey:
// reasons to look again at the number, not errors. Empty for ordinary honey.
func Findings(moisturePct float64, kind Kind) []message.Message {
	var out []message.Message
	pct := func(v float64) quantity.Quantity { return quantity.Of(quantity.Percent, v) }
	legal := LegalMoisturePct
	if kind == Heather {
		legal = LegalHeatherMoisturePct
	}
	if moisturePct > legal {
		out = append(out, message.New("moisture {moisture} is above {limit}, the legal limit for honey of this kind: it may ferment in the jar", pct(moisturePct), pct(legal)))
	}
	if moisturePct < surveyedMoistureLeastPct || moisturePct > surveyedMoistureMostPct {
		out = append(out, message.New("moisture {moisture} is outside {least} to {most}, what a survey of 490 honeys found", pct(moisturePct), pct(surveyedMoistureLeastPct).Unitless(), pct(surveyedMoistureMostPct)))
	}
	return out
}
