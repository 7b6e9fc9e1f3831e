package explain

var daySheets = map[string]sheet{
	"title":        {name: "title of the design", formula: []string{"as the file has it"}},
	"yeast":        {name: "the yeast brewed with", formula: []string{"the first [[yeast]] of the file, or the one compared"}},
	"warnings":     {name: "warnings", formula: []string{"where a part of the model is asked for more than it knows, or the plan does not fit"}},
	"yeast_stress": {name: "stress of the yeast", formula: []string{"for alcohol, cold, heat, pitch, nitrogen and gravity: the value, its limit and the risk that the beer stops early or runs slow (package stress)"}},
	"cautions":     {name: "cautions", formula: []string{"what can hurt someone in this brew; local law and the maker's instructions come first"}},
	"bitterness_ibu": {
		name: "bitterness", unit: "IBU", decimals: 1,
		formula: []string{
			"IBU = alpha acid, mg/L, less what does not dissolve · utilisation",
			"utilisation = 1.65 · 0.000125^(SG - 1) · (1 - exp(-0.04 t)) / 4.15 in the boil; isomerisation at the falling temperature in the stand",
		},
		sources: []string{"Tinseth (read); isomerisation: Malowicki & Shellhammer 2005 (read); saturation and stand: J.-P. Hosom (read)"},
		notes:   []string{"calc/boil: mostly what bitters besides iso-alpha acid"}, inputs: hopInputs,
	},
	"colour_ebc": {
		name: "colour", unit: "EBC", decimals: 1,
		formula: []string{"SRM = 1.4922 MCU^0.6859, MCU of all grain, EBC = 1.97 SRM"},
		sources: []string{"Morey (read)"}, notes: []string{"calc/colour"}, inputs: colourInputs,
	},
	"strike_temperature_c": {
		name: "strike temperature", unit: "°C", decimals: 1,
		formula: []string{"heat of liquor and vessel = heat of grain, vessel and liquor at the first rest"},
		sources: []string{"heat balance; specific heat of malt by its moisture (calc/water)"}, inputs: strikeInputs,
	},
	"height_hours": {
		name: "height of the fermentation", unit: "h after pitching", decimals: 0,
		formula: []string{"the hour of the greatest CO2 rate of the wort's own fermentation", "uptake: hexose first, maltose and maltotriose through one carrier; growth ends where sterols do"},
		sources: []string{gee, "fitted to four of nine measured fermentations (Sheffield Hallam University 2025) and to the trade's times"}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"honey_window_hours": {
		name: "honey window", unit: "h after pitching", decimals: 0,
		formula: []string{"opens: CO2 rate below 0.85 of its height and half of the attenuation done", "closes: rate below a tenth, or nine tenths done"},
		sources: []string{"definition ours, after the trade's riotous time (derived)", gee},
	},
	"honey_window_hours.opens": {
		name: "honey window opens", unit: "h after pitching", decimals: 0,
		formula: []string{"CO2 rate below 0.85 of its height, and half of the attenuation done"},
		sources: []string{"definition ours, after the trade's riotous time (derived)", gee}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"honey_window_hours.closes": {
		name: "honey window closes", unit: "h after pitching", decimals: 0,
		formula: []string{"CO2 rate below a tenth of its height, or nine tenths of the attenuation done"},
		sources: []string{"definition ours: enough activity must be left to finish the honey (derived)", gee}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"honey_window_sg": {
		name: "honey window by the hydrometer", unit: "SG", decimals: 4,
		formula: []string{"gravity of the wort's own fermentation at the hours of the honey window"},
		sources: []string{"definition ours, after the trade's riotous time (derived)", balling},
	},
	"honey_window_sg.opens": {
		name: "gravity at which the honey window opens", unit: "SG", decimals: 4,
		formula: []string{"gravity of the wort's own fermentation at the hours of the honey window"},
		sources: []string{"definition ours, after the trade's riotous time (derived)", balling}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"honey_window_sg.closes": {
		name: "gravity at which the honey window closes", unit: "SG", decimals: 4,
		formula: []string{"gravity of the wort's own fermentation at the hours of the honey window"},
		sources: []string{"definition ours, after the trade's riotous time (derived)", balling}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"finished_hours": {
		name: "finished", unit: "h after pitching", decimals: 0,
		formula: []string{"99 % of everything fermentable is gone, late honey included"},
		sources: []string{gee, "ales in 3 to 7 days at 18 to 22 °C: " + practice}, notes: []string{clockUs}, inputs: clockInputs,
	},
	"primer_g_per_l": {
		name: "primer", unit: "g/L", decimals: 2,
		formula: []string{"(CO2 wanted - CO2 kept at the warmest since it finished) / CO2 from 1 g of the primer"},
		sources: []string{"solubility: Carroll et al. 1991 (read); " + balling}, inputs: bottleInputs,
	},
	"bottle_volumes": {
		name: "CO2 in the bottle", unit: "volumes", decimals: 2,
		formula: []string{"CO2 kept + CO2 of the primer"},
		sources: []string{"solubility: Carroll et al. 1991 (read); " + balling}, inputs: bottleInputs,
	},
	"bottle_headroom_points": {
		name: "points that may still ferment in the bottle", unit: "points", decimals: 1,
		formula: []string{"(what the bottle is made for - planned volumes) / 0.50 volumes a point"},
		sources: []string{balling + ", per litre of finished beer"}, inputs: bottleInputs,
	},
	"equal_readings_days": {
		name: "days between equal readings", unit: "days", decimals: 1,
		formula: []string{"the least D, two days or more, with mark / (2^(D / half-life) - 1) within the headroom", "half-life of the slowest thing in the beer: ordinary strain 1 day, hops added cold 5, raw honey 10, a strain that eats dextrin 10"},
		sources: []string{"exponential tail (derived); half-lives ours"}, inputs: bottleInputs,
	},
	"bottle_volumes_worst": {
		name: "the most that equal readings can have missed, in the bottle", unit: "volumes", decimals: 2,
		formula: []string{"planned volumes + 0.50 · mark / (2^(D / half-life) - 1)", "of each slow thing no more than it can take"},
		sources: []string{"exponential tail (derived); " + balling}, inputs: bottleInputs,
	},
	"bottle_volumes_honey_unfermented": {
		name: "CO2 in a bottle filled before the honey has fermented", unit: "volumes", decimals: 1,
		formula: []string{"planned volumes + CO2 of the fermentable share of all honey that goes in while it ferments"},
		sources: []string{balling, honeys}, inputs: bottleInputs,
	},
	"volumes":                {name: "volumes of the day", unit: "L", decimals: 1, formula: []string{"backwards from the fermenter: what each step leaves behind is added"}},
	"volumes.mash_liquor":    {name: "mash liquor", unit: "L", decimals: 1, formula: []string{"liquor per kg · grain + liquor under the bed; no more than the whole brew takes"}, inputs: volumeInputs},
	"volumes.sparge":         {name: "sparge", unit: "L", decimals: 1, formula: []string{"before the boil, cool, + held by the grain - mash liquor"}, inputs: volumeInputs},
	"volumes.pre_boil":       {name: "before the boil", unit: "L", decimals: 1, formula: []string{"after the boil + steam · length of the boil"}, inputs: volumeInputs},
	"volumes.post_boil":      {name: "after the boil", unit: "L", decimals: 1, formula: []string{"(into the fermenter + left with the break and hops + in the chiller), hot: 4 % larger"}, sources: []string{"shrinkage on cooling: density of water, IAPWS (read)"}, inputs: volumeInputs},
	"volumes.into_fermenter": {name: "into the fermenter", unit: "L", decimals: 1, formula: []string{"as the design wants it"}, inputs: volumeInputs},
	"volumes.packaged":       {name: "packaged", unit: "L", decimals: 1, formula: []string{"into the fermenter + late honey - yeast and sediment"}, inputs: volumeInputs},
}

var wortSheets = map[string]sheet{
	"wort":             {name: "wort in the fermenter, before any late honey", unit: "g/L", decimals: 1, formula: []string{"sugars of the mash and of honey to pitching, per litre"}, sources: []string{mashed, honeys}},
	"wort.glucose":     wortSheet("glucose"),
	"wort.fructose":    wortSheet("fructose"),
	"wort.sucrose":     wortSheet("sucrose"),
	"wort.maltose":     wortSheet("maltose"),
	"wort.maltotriose": wortSheet("maltotriose"),
	"wort.dextrin":     wortSheet("dextrin"),
}

func wortSheet(kind string) sheet {
	return sheet{
		name: kind + " in the wort, before any late honey", unit: "g/L", decimals: 1,
		formula: []string{"share of the mash's extract · grain extract + honey to pitching, over the volume"},
		sources: []string{mashed, honeys}, notes: []string{draws}, inputs: mashInputs,
	}
}
