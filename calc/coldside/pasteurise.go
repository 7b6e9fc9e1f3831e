package coldside

import (
	"math"

	"skep/calc/message"
)

// The range in which heat is worked out, °C.
const (
	MinPasteuriseC = 50.0
	MaxPasteuriseC = 75.0
)

// Pasteurisation units: minutes x 1.393^(T - 60) (MEBAK B-420.13.032). Invertase
// is gone after 5.5 of them (the same); the enzyme of strains that eat dextrin is
// not (second-hand), so that heat stops the yeast and not what freed sugar.
const (
	unitBase = 1.393
	unitAtC  = 60.0
)

// PasteurisationUnits is what minutes at temperatureC are worth, 50 to 75 °C.
func PasteurisationUnits(minutes, temperatureC float64) (float64, error) {
	if err := checkHeat(minutes, temperatureC); err != nil {
		return 0, err
	}
	return minutes * math.Pow(unitBase, temperatureC-unitAtC), nil
}

// Spores is how hard the spores of a yeast die: minutes at 60 °C for a tenfold
// fall, and the degrees that make it ten times quicker.
type Spores struct{ D60Minutes, ZC float64 }

// HardestSpores and SofterSpores are two strains of brewing yeast in lager of 4 %
// (a thesis, read).
var (
	HardestSpores = Spores{11.2, 11.7}
	SofterSpores  = Spores{6.0, 12.7}
)

// LogReduction is how many powers of ten of them minutes at temperatureC kill, 50
// to 75 °C.
func (s Spores) LogReduction(minutes, temperatureC float64) (float64, error) {
	if err := checkHeat(minutes, temperatureC); err != nil {
		return 0, err
	}
	return minutes * math.Pow(10, (temperatureC-unitAtC)/s.ZC) / s.D60Minutes, nil
}

func checkHeat(minutes, temperatureC float64) error {
	if !(temperatureC >= MinPasteuriseC && temperatureC <= MaxPasteuriseC) {
		return message.NewError("{value} °C is outside {low} to {high} °C, where beer is pasteurised", temperatureC, MinPasteuriseC, MaxPasteuriseC)
	}
	if !(minutes >= 0 && minutes <= 24*60) {
		return message.NewError("{value} minutes are outside 0 to a day", minutes)
	}
	return nil
}
