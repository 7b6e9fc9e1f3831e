package alcohol

import (
	"math"

	"skep/calc/message"
)

// dutyBand is one row of the UK excise table: from this drop of gravity, in
// excess degrees, the factor holds.
type dutyBand struct{ fromDegrees, factor float64 }

// dutyTable: HMRC Notice 226 (Beer Duty), section 30.3, made by the Laboratory
// of the Government Chemist; as quoted in two public posts that agree in every
// row. The notice was replaced in 2023: a quoted legal table.
var dutyTable = [...]dutyBand{
	{0, 0.125}, {7.0, 0.126}, {10.5, 0.127}, {17.3, 0.128}, {26.2, 0.129},
	{36.1, 0.130}, {46.6, 0.131}, {57.2, 0.132}, {68.0, 0.133}, {78.9, 0.134},
	{89.8, 0.135},
}

// maxDutyDegrees is the table's last row, OG less PG in excess degrees.
const maxDutyDegrees = 100.7

// DutyStrength gives % by volume by the UK excise factor table: the drop of
// gravity in excess degrees (1.048 is 48) times a factor that rises with it.
// Declared is the same cut, not rounded, to one decimal, as the rule says.
//
// The table's rows are to one decimal of a degree; a drop between two rows
// (6.95) takes the row of its value rounded to one decimal. The result jumps
// by 0.02 to 0.1 % from row to row: that is the law's. A drop below zero or
// beyond the table is refused.
func DutyStrength(originalSG, finalSG float64) (uncutPct, declaredPct float64, err error) {
	drop := (originalSG - finalSG) * 1000
	drop = math.Round(drop*1e6) / 1e6 // gravities are decimals, their float64 difference is not
	key := math.Round(drop*10) / 10
	if !(key >= 0 && key <= maxDutyDegrees) { // NaN as well
		return 0, 0, message.NewError("original less final gravity is {value} excess degrees, outside 0 to {most}, the range of the excise table", drop, maxDutyDegrees)
	}
	factor := dutyTable[0].factor
	for _, row := range dutyTable {
		if key >= row.fromDegrees {
			factor = row.factor
		}
	}
	uncutPct = drop * factor
	// 1e-9: what is 4.7 on paper must not be cut to 4.6 for a last bit.
	declaredPct = math.Floor(uncutPct*10+1e-9) / 10
	return uncutPct, declaredPct, nil
}
