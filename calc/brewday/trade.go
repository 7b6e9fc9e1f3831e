package brewday

// Figures that brewers go by. Each is common practice, no source, unless one
// is named.
const (
	chlorineMgPerL    = 10.0 // metabisulphite that takes chlorine and chloramine out, mg/L
	portionKg         = 0.6  // grain stirred in at a time
	restBeforePumpMin = 10.0 // for the bed to settle
	settlesMin        = 15.0 // until a recirculated mash runs clear and even
	spargeC           = 76.0 // hot enough to run, below what draws tannin
	spargeHottestC    = 78.0
	spargePaceLPerMin = 1.0
	spargeStopSG      = 1.010
	spargeStopPH      = 5.8
	sanitiseMin       = 15.0 // boiling wort through the chiller
	boilHoneyMin      = 5.0  // honey for the boil goes in so long before its end
	safeToOpenC       = 60.0 // third-degree burn in 3 to 6 s here, at once at 95 (consumer safety figures)
	pourC             = 35.0 // honey pours, and keeps its scent
	honeyHottestC     = 40.0
	honeyPortions     = 4.0
	honeyDiluteGPerL  = 40.0 // from here on a thick layer at the bottom is likely
	pitchOverC        = 3.0  // wort so much above the plan may be pitched and cooled on
	bottleL           = 0.5
	pinchG            = 1.5 // less is no matter for a kitchen scale
	leastIBU          = 0.5 // less is not worth a word
	iodineMinPerRest  = 15.0
	alphaHighestPct   = 22.0 // no public variety is above; more is a slip of the pen
)

// Cells in a gram of dry yeast, 1e9: six strains counted 8 to 18, mean 12.5
// (S. van den Berg, A. Van Landschoot, Cerevisia 28(3), 2003); makers guarantee
// more than 6.
const (
	dryCellsPerG, dryCellsMost, dryCellsLeast = 12.5, 18.0, 6.0
)

// Cells in a millilitre of settled slurry, 1e9, and its band.
const (
	slurryCellsPerML, slurryMost, slurryLeast = 1.0, 2.0, 0.5
)

// liquidLossPctPerDay is what a liquid culture loses (a yeast page, read).
const liquidLossPctPerDay = 0.7
