package document

import (
	"skep/calc"
	"skep/calc/message"
	"skep/calc/start"
)

// Begun is a design made from what one has.
type Begun struct {
	Title       string            `json:"title"`
	Yeast       string            `json:"yeast"`
	Reached     bool              `json:"reached" about:"strength, and taste where one was asked for"`
	HoneyLeftKg float64           `json:"honey_left_kg" about:"at hand and not used"`
	Notes       []message.Message `json:"notes" about:"what to know before brewing it"`
	Prediction  calc.Prediction   `json:"prediction"`
}

// Begin makes the document of such a design.
func Begin(b *start.Begun) Begun {
	return Begun{b.Design.Title, b.Design.Yeast[0].Name, b.Reached, b.HoneyLeftKg, list(b.Notes), Predicted(b.Prediction)}
}
