package document

import (
	"skep/calc/message"
)

// Kit is a kit, by the keys of its file.
type Kit struct {
	Name   string            `json:"name"`
	File   string            `json:"file"`
	Values map[string]string `json:"values" about:"as skep kit takes them"`
	Test   []Tested          `json:"test,omitempty" about:"what a water test has filled in"`
}

// Tested is what a water test came to for one of the kit's numbers.
type Tested struct {
	Key        string          `json:"key"`
	Value      float64         `json:"value"`
	Arithmetic message.Message `json:"arithmetic"`
	Note       message.Message `json:"note,omitzero"`
}

// Kits are all of a person's own.
type Kits struct {
	Folder   string   `json:"folder"`
	Kits     []Kit    `json:"kits"`
	Problems []string `json:"problems" about:"files that can't be read, and why"`
}
