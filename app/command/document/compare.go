package document

import (
	"skep/app/compare"
	"skep/calc"
)

// SideBySide is every strain of a file on the same wort.
type SideBySide struct {
	Yeasts []Strain `json:"yeasts" about:"one for each strain, in the file's order"`
}

// Strain is one of them.
type Strain struct {
	calc.Prediction
	Difference *calc.Difference `json:"difference,omitempty" about:"from the first strain, from the same draws; not of the first"`
}

// Compare makes the document of some strains.
func Compare(strains []compare.Strain) SideBySide {
	out := SideBySide{Yeasts: []Strain{}}
	for _, one := range strains {
		out.Yeasts = append(out.Yeasts, Strain{Predicted(one.Prediction), one.Difference})
	}
	return out
}
