package document

import "skep/calc/tune"

// Tuned is the answer to a taste.
type Tuned struct {
	tune.Result
	Milliseconds float64 `json:"milliseconds"`
}

// Tune makes the document of an answer that took so long.
func Tune(r tune.Result, milliseconds float64) Tuned {
	for i := range r.Ways {
		r.Ways[i].Prediction = Predicted(r.Ways[i].Prediction)
	}
	return Tuned{r, milliseconds}
}
