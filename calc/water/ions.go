package water

// Atomic masses, g/mol (as printed with the check values).
const (
	massCa, massMg, massNa = 40.078, 24.305, 22.990
	massS, massO, massCl   = 32.06, 15.999, 35.45
	massC, massH           = 12.011, 1.008
	massWater              = 2*massH + massO
	massSulphate           = massS + 4*massO
	massBicarbonate        = massH + massC + 3*massO
	massGypsum             = massCa + massSulphate + 2*massWater
	massCalciumChloride    = massCa + 2*massCl + 2*massWater // dihydrate
	massEpsom              = massMg + massSulphate + 7*massWater
	massTableSalt          = massNa + massCl
	massBakingSoda         = massNa + massBicarbonate
	massChalk              = massCa + massC + 3*massO
)

// Acid and alkalinity.
const (
	// mEqChalkMg is a milliequivalent as mg of CaCO3.
	mEqChalkMg = massChalk / 2
	// Kolbach 1953: what calcium and magnesium take back of alkalinity, for
	// knocked-out wort; the mash asks for a little less (ASBC J. 2015).
	kolbachCa, kolbachMg = 3.5, 7.0
)

// Ions are dissolved salts, mg/L.
type Ions struct {
	CalciumMgL     float64
	MagnesiumMgL   float64
	SodiumMgL      float64
	ChlorideMgL    float64
	SulphateMgL    float64
	BicarbonateMgL float64
}

// Plus is both together.
func (i Ions) Plus(o Ions) Ions {
	return Ions{
		i.CalciumMgL + o.CalciumMgL, i.MagnesiumMgL + o.MagnesiumMgL, i.SodiumMgL + o.SodiumMgL,
		i.ChlorideMgL + o.ChlorideMgL, i.SulphateMgL + o.SulphateMgL, i.BicarbonateMgL + o.BicarbonateMgL,
	}
}

// Salts are additions, g. Calcium chloride is the dihydrate, gypsum and Epsom
// salt carry their usual water; anhydrous salts give a quarter more.
type Salts struct {
	GypsumG          float64
	CalciumChlorideG float64
	EpsomG           float64
	TableSaltG       float64
	BakingSodaG      float64
	ChalkG           float64 // as if it dissolved; most of it does not
}

// Ions is what the salts bring to volumeL of liquor, by atomic masses; nothing
// where there is no liquor. Chalk is counted as the bicarbonate it becomes.
func (s Salts) Ions(volumeL float64) Ions {
	if !(volumeL > 0) {
		return Ions{}
	}
	mmol := func(grams, molar float64) float64 { return 1000 * grams / molar / volumeL }
	gypsum, chloride := mmol(s.GypsumG, massGypsum), mmol(s.CalciumChlorideG, massCalciumChloride)
	epsom, salt := mmol(s.EpsomG, massEpsom), mmol(s.TableSaltG, massTableSalt)
	soda, chalk := mmol(s.BakingSodaG, massBakingSoda), mmol(s.ChalkG, massChalk)
	return Ions{
		CalciumMgL:     (gypsum + chloride + chalk) * massCa,
		MagnesiumMgL:   epsom * massMg,
		SodiumMgL:      (salt + soda) * massNa,
		ChlorideMgL:    (2*chloride + salt) * massCl,
		SulphateMgL:    (gypsum + epsom) * massSulphate,
		BicarbonateMgL: (soda + 2*chalk) * massBicarbonate,
	}
}

// AlkalinityMEqL is the bicarbonate as milliequivalents a litre.
func (i Ions) AlkalinityMEqL() float64 { return i.BicarbonateMgL / massBicarbonate }

// ResidualAlkalinityMEqL is what alkalinity calcium and magnesium leave, mEq/L:
// alkalinity - Ca/3.5 - Mg/7 (P. Kolbach 1953). One is 50.04 mg/L of CaCO3 or
// 2.804 °dH.
func (i Ions) ResidualAlkalinityMEqL() float64 {
	return i.AlkalinityMEqL() - 2*i.CalciumMgL/massCa/kolbachCa - 2*i.MagnesiumMgL/massMg/kolbachMg
}

// ChalkMgL turns milliequivalents a litre into mg/L as CaCO3.
func ChalkMgL(mEqL float64) float64 { return mEqL * mEqChalkMg }

// AcidMEqL is so much 88 % lactic acid spread over liquor, mEq/L; 0 where there
// is none.
func AcidMEqL(lactic88ML, volumeL float64) float64 {
	if !(volumeL > 0) {
		return 0
	}
	return lactic88ML * lactic(0.88, 1.206).MEqPerML(usualMashPH) / volumeL
}
