package explain

import (
	"slices"

	"skep/calc/message"
)

// sheet is what does not depend on the design: how a number is made.
type sheet struct {
	name, unit string
	decimals   int
	formula    []string
	sources    []string
	notes      []string
	inputs     func(x *Explainer) []Input
}

// Sources used more than once.
const (
	balling  = "Balling: 2.0665 g of extract make 1 g of ethanol, 0.9565 g of CO2 and 0.11 g of yeast (Nielsen et al.; EBC; read)"
	line     = "RE = 0.1808 OE + 0.8192 AE (several pages; read)"
	asbc     = "ASBC cubic between °P and specific gravity (read), inverted numerically"
	mashed   = "mash: enzyme kinetics fitted to published mashes (calc/mash, testdata/mash/rows.csv)"
	gee      = "Gee & Ramirez, J. Inst. Brew. 100:321, 1994 (read through two re-implementations), pace fitted to the trade's times (testdata/ferment/rows.csv)"
	uptake   = "order of uptake: Gee & Ramirez 1994; inversion of the attenuation range on one hour at 66 °C, all malt: ours (calc/yeast)"
	honeys   = "honey: White 1962, 490 US honeys (read); fermentable share 0.89 to 0.96 of the solids (derived)"
	tasteUs  = "scale and weights are ours, argued in calc/taste; tasters differ"
	draws    = "10th, 50th and 90th percentile of draws over every uncertain input (calc/doubt)"
	clockUs  = "pace (a factor of 1.5), lag and temperature (calc/ferment)"
	practice = "common practice, no source"
)

// text is one of the sheets' texts as a message, and texts are several.
func text(english string) message.Message { return message.Message{Text: english} }

func texts(english []string) []message.Message {
	var out []message.Message
	for _, t := range english {
		out = append(out, text(t))
	}
	return out
}

// Texts are what stands in the sheets, with the units of numbers and inputs that are
// no unit's symbol: for the list of texts to translate.
func Texts() []string {
	list := slices.Clone(longUnits)
	for _, s := range sheets {
		list = append(append(append(append(list, s.name), s.formula...), s.sources...), s.notes...)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// longUnits are the units that say what they are of, or that a person has no choice in.
var longUnits = []string{"SG", "% vol", "% of extract", "% on the reference wort", "g per litre of beer", "g/L of extract", "h after pitching",
	"billion/L", "volumes", "points", "days", "pH", "L/L", "kJ/K", "°P", "K", "kJ/L", "IBU"}

// sheetOf is the sheet of a key; every key of [Keys] has one (tested).
func sheetOf(key string) sheet { return sheets[key] }

// sheets is filled in init, since sheets read each other's names.
var sheets = map[string]sheet{}

func init() {
	for _, some := range []map[string]sheet{gravitySheets, tasteSheets, daySheets, wortSheets} {
		for key, s := range some {
			sheets[key] = s
		}
	}
}

var gravitySheets = map[string]sheet{
	"original_gravity_sg": {
		name: "original gravity, as a hydrometer shows it at pitching", unit: "SG", decimals: 4,
		formula: []string{
			"OE = 100 (grain extract + honey to pitching) / (mass of wort + honey at pitching)",
			"grain extract = laboratory extract · mash efficiency · conversion of the mash · share that reaches the fermenter",
			"SG from OE by the ASBC cubic",
		},
		sources: []string{asbc, mashed, honeys}, notes: []string{draws}, inputs: extractInputs,
	},
	"effective_original_gravity_sg": {
		name: "original gravity with all honey counted in", unit: "SG", decimals: 4,
		formula: []string{
			"OE = 100 (extract of grain and of all honey) / (mass of wort and of all honey): by mass, since volumes do not add",
			"SG from OE by the ASBC cubic",
		},
		sources: []string{asbc, mashed, honeys}, notes: []string{draws}, inputs: extractInputs,
	},
	"final_gravity_sg": {
		name: "final gravity", unit: "SG", decimals: 4,
		formula: []string{
			"fermented share = Σ (sugar of the malt · what the strain takes of it) + what ferments of the honey, over all extract",
			"f = OE · fermented share",
			"RE = 100 (OE - f) / (100 - 1.0665 f / 2.0665)",
			"AE = (RE - 0.1808 OE) / 0.8192, and SG from AE by the ASBC cubic",
		},
		sources: []string{balling, line, asbc, uptake, mashed, honeys}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"strength_pct": {
		name: "strength", unit: "% vol", decimals: 2,
		formula: []string{
			"A = (OE - RE) / (2.0665 - 0.010665 OE), % by mass",
			"ABV = A · density of the beer / density of ethanol (789.24 kg/m³), both at 20 °C",
		},
		sources: []string{balling, "density of ethanol: OIML R 22 (read)", line, mashed, honeys}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"apparent_attenuation_pct": {
		name: "apparent attenuation, on the effective original extract", unit: "%", decimals: 1,
		formula: []string{"100 (OE - AE) / OE, AE as for final gravity"},
		sources: []string{balling, line, uptake, mashed, honeys}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"real_attenuation_pct": {
		name: "real degree of fermentation, on the effective original extract", unit: "%", decimals: 1,
		formula: []string{"RDF = 100 (OE - RE) / OE / (1 - 0.005161 RE)"},
		sources: []string{"ASBC real degree of fermentation (read)", balling, mashed, honeys}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"real_extract_g_l": {
		name: "real extract: all that is left, alcohol taken away", unit: "g/L", decimals: 1,
		formula: []string{"RE = 100 (OE - f) / (100 - 1.0665 f / 2.0665), times the density of the beer"},
		sources: []string{balling, mashed, honeys}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"energy_kj_per_l": {
		name: "energy", unit: "kJ/L", decimals: 0,
		formula: []string{"4.184 · 10 · (6.9 A + 4.0 (RE - 0.1)) · SG"},
		sources: []string{"EBC (read)", balling}, notes: []string{draws}, inputs: fermentedInputs,
	},
	"residual_sugar_g_l": {
		name: "residual sugar: glucose to maltotriose", unit: "g/L", decimals: 1,
		formula: []string{"Σ sugar of the malt · (1 - what the strain takes of it), as a share of what is left, times the real extract"},
		sources: []string{uptake, mashed, balling}, notes: []string{draws}, inputs: residueInputs,
	},
	"dextrin_g_l": {
		name: "dextrin", unit: "g/L", decimals: 1,
		formula: []string{
			"(dextrin of the malt · (1 - what the strain takes) + higher sugars of the honey) · (1 - what live honey enzymes trim),",
			"as a share of what is left, times the real extract",
		},
		sources: []string{mashed, honeys, "trimming by raw honey: ours, a judgement (calc/honey)", balling}, notes: []string{draws}, inputs: residueInputs,
	},
}

var tasteSheets = map[string]sheet{
	"sweetness_g_l": {
		name: "sweetness, as sucrose", unit: "g/L", decimals: 1,
		formula: []string{"1.2 fructose + 0.7 glucose + sucrose + 0.4 maltose + 0.25 maltotriose + 0.1 dextrin, each left in the beer, g/L"},
		sources: []string{"Biester & Wood; Sale & Skinner; Paul; PMC10346066 (ranges read); threshold of sucrose in water 3.4 g/L"},
		notes:   []string{draws + "; the weights within their published ranges"}, inputs: residueInputs,
	},
	"dryness": {
		name: "dryness, 0 sweet to 100 very dry", decimals: 1,
		formula: []string{"100 (0.45 (RDF - 45)/40 + 0.55 exp(-S / 6 g/L)), each part held between 0 and 1"},
		sources: []string{tasteUs}, notes: []string{draws}, inputs: tasteInputs,
	},
	"dryness_word": {
		name: "dryness in a word", formula: []string{"by the index: below 20 sweet, to 40 rounded, to 60 balanced, to 80 dry, above very dry"},
		sources: []string{tasteUs}, inputs: one("dryness", ""),
	},
	"body": {
		name: "body, 0 thin to 100 full", decimals: 1,
		formula: []string{"W = malt's dextrin, protein and other extract + 0.4 (residual sugar and what honey leaves) + F, g/L",
			"F = a A / (A + 8 %), what alcohol A fills; a = 20 g/L (6 to 34)", "100 W² / (W² + 57²)"},
		sources: []string{tasteUs, "halfway at 57 g/L: 50 g/L of dextrin, where a panel first felt it, in a beer of some 4 %: Ragot 1989 (read)",
			"alcohol fills: Ivanova et al. 2023, 105004 (abstract read); by how much is ours, and drinkers differ"},
		notes: []string{draws, "honey on top of the same malt fills by its alcohol alone; in place of malt it takes away more than that"}, inputs: bodyInputs,
	},
	"body_word": {
		name: "body in a word", formula: []string{"by the index: below 33 light, to 66 medium, above full"},
		sources: []string{tasteUs}, inputs: one("body", ""),
	},
	"honey_character": {
		name: "honey character, an index and no measurement, 0 to 100", decimals: 0,
		formula: []string{
			"kept = Σ weight · exp(-k · litres of CO2 still to come per litre), less what the hot side loses",
			"m = Σ grams of honey per litre · kept,  100 m / (m + 25 g/L)",
		},
		sources: []string{"stripping: Morakul 2010 (read); hot side against cellar: Gahr et al. 2019 (read); the mix and the halfway are ours"},
		notes:   []string{"hot wort takes a third of it and more; pitching or days after the height differ by some hundredths", "what is kept, and how strong in aroma the honey is (15 to 40 g/L halfway), in squares"}, inputs: characterInputs,
	},
	"honey_character_word": {
		name: "honey character in a word", formula: []string{"by the index: below 33 low, to 66 moderate, above high"},
		sources: []string{tasteUs}, inputs: one("honey_character", ""),
	},
}
