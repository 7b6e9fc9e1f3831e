package document

// Kit is a kit, by the keys of its file.
type Kit struct {
	Name   string            `json:"name"`
	File   string            `json:"file"`
	Values map[string]string `json:"values" about:"as skep kit takes them"`
}

// Kits are all of a person's own.
type Kits struct {
	Folder   string   `json:"folder"`
	Kits     []Kit    `json:"kits"`
	Problems []string `json:"problems" about:"files that can't be read, and why"`
}
