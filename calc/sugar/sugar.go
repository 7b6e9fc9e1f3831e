// Package sugar names what wort and beer extract is made of.
//
// It is names and shares alone, for every package that hands sugars on; it must not
// know where they come from, nor what eats them.
package sugar

// Spectrum is extract by kind. The unit is the caller's and is named where a
// Spectrum stands: a share of extract (sums to 1), g/L, or kg.
type Spectrum struct {
	Glucose     float64 `json:"glucose"`
	Fructose    float64 `json:"fructose"`
	Sucrose     float64 `json:"sucrose"`
	Maltose     float64 `json:"maltose"`
	Maltotriose float64 `json:"maltotriose"`
	Dextrin     float64 `json:"dextrin"`
	Other       float64 `json:"other"` // protein, minerals, acids: extract that is no carbohydrate
}

// Plus is the sum, kind by kind.
func (s Spectrum) Plus(o Spectrum) Spectrum {
	return Spectrum{
		s.Glucose + o.Glucose, s.Fructose + o.Fructose, s.Sucrose + o.Sucrose,
		s.Maltose + o.Maltose, s.Maltotriose + o.Maltotriose,
		s.Dextrin + o.Dextrin, s.Other + o.Other,
	}
}

// Scale multiplies every kind by k, where it stands.
func (s *Spectrum) Scale(k float64) {
	s.Glucose *= k
	s.Fructose *= k
	s.Sucrose *= k
	s.Maltose *= k
	s.Maltotriose *= k
	s.Dextrin *= k
	s.Other *= k
}

// Add puts in k times another, where it stands.
func (s *Spectrum) Add(o *Spectrum, k float64) {
	s.Glucose += o.Glucose * k
	s.Fructose += o.Fructose * k
	s.Sucrose += o.Sucrose * k
	s.Maltose += o.Maltose * k
	s.Maltotriose += o.Maltotriose * k
	s.Dextrin += o.Dextrin * k
	s.Other += o.Other * k
}

// Times is every kind multiplied by k.
func (s Spectrum) Times(k float64) Spectrum {
	s.Scale(k)
	return s
}

// By pointer: a copy of what was written just now has to wait for the processor's store.

// Total is all extract.
func (s *Spectrum) Total() float64 {
	return s.Simple() + s.Maltose + s.Maltotriose + s.Dextrin + s.Other
}

// Simple is what every brewing yeast takes first: glucose, fructose and sucrose.
func (s *Spectrum) Simple() float64 { return s.Glucose + s.Fructose + s.Sucrose }

// Sugars is everything sweet and small: the simple sugars, maltose and maltotriose.
func (s *Spectrum) Sugars() float64 { return s.Simple() + s.Maltose + s.Maltotriose }
