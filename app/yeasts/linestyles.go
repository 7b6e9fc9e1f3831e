package yeasts

import (
	"slices"

	"skep/calc/design"
)

// lineStyles keeps each strain's line style through reordering and dropping, so
// that a line never changes its colour under the eye.
type lineStyles struct {
	of    []design.Yeast
	slots []int
}

// fit gives the strains of now their looks: a strain keeps its own, one that
// was changed in its place too, a new one takes the first that is free.
func (l *lineStyles) fit(strains []design.Yeast) {
	if slices.Equal(strains, l.of) {
		return
	}
	slots := make([]int, len(strains))
	taken := make([]bool, len(l.of)) // old strains that found themselves
	used := [mostStrains]bool{}
	give := func(i, old int) {
		slots[i], taken[old] = l.slots[old], true
		used[l.slots[old]] = true
	}
	for i := range slots {
		slots[i] = -1
	}
	match := func(like func(a, b design.Yeast) bool) {
		for i := range strains {
			for old := 0; slots[i] < 0 && old < len(l.of); old++ {
				if !taken[old] && like(strains[i], l.of[old]) {
					give(i, old)
				}
			}
		}
	}
	match(func(a, b design.Yeast) bool { return a == b })
	match(func(a, b design.Yeast) bool { return a.Name == b.Name })
	for i := range strains {
		if slots[i] < 0 && i < len(l.of) && !taken[i] && len(strains) == len(l.of) {
			give(i, i)
		}
	}
	for i := range strains {
		for s := 0; slots[i] < 0; s++ {
			if !used[s] {
				slots[i], used[s] = s, true
			}
		}
	}
	l.of, l.slots = slices.Clone(strains), slots
}
