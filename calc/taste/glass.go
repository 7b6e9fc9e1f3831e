package taste

import "skep/calc/sugar"

// Glass is a finished beer as far as dryness and body go.
type Glass struct {
	Residue     sugar.Spectrum // g/L left in the beer
	HoneyLeftGL float64        // of Residue, what honey left
	ABVPct      float64        // % by volume
	RDFPct      float64        // real degree of fermentation, ASBC
}

// Taste are the indices of dryness and body to a palate, as the scores of
// [Draw] have it.
func (g *Glass) Taste(maltScore, simpleScore float64) (dryness, body float64) {
	w := Draw(maltScore, simpleScore)
	return Dryness(g.RDFPct, SweetnessGL(g.Residue, w)), Body(g.Residue, g.HoneyLeftGL, g.ABVPct, w)
}
