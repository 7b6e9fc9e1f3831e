package userfile

import (
	"strconv"
	"strings"

	"skep/calc/design"
)

// LoadStrains reads a file of strains. One that is not there is empty and no
// error. One that can't be read, or has a mistake in it, gives no strain and an
// error that names it and, where it can, the line; the file stays as it is.
func LoadStrains(path string) ([]design.CatalogueYeast, error) {
	_, list, _, err := read(path)
	return list.Yeast, err
}

// AddStrain writes a strain at the end of a file; see [add].
func AddStrain(path string, y design.Yeast, about design.About) error {
	y.Name = strings.TrimSpace(y.Name)
	return add(path, StrainKind.of(), y.Name, strainEntry(y, about), func(c *design.Catalogue) bool {
		return lastIs(c.Yeast, design.CatalogueYeast{Yeast: y, About: about})
	})
}

// strainEntry is a strain as a person would write it.
func strainEntry(y design.Yeast, about design.About) string {
	b := StrainKind.entry(y.Name)
	line := b.line
	line("attenuation_low_pct", number(y.AttenuationLowPct))
	line("attenuation_high_pct", number(y.AttenuationHighPct))
	line("temperature_c", number(y.TemperatureC))
	line("cells_billion_per_l", number(y.CellsBillionPerL))
	if y.Form != "" {
		line("form", quote(y.Form))
	}
	line("eats_dextrin", strconv.FormatBool(y.EatsDextrin))
	for _, limit := range []struct {
		key   string
		value float64
	}{{"tolerance_pct", y.TolerancePct}, {"coldest_c", y.ColdestC}, {"warmest_c", y.WarmestC}} {
		if limit.value != 0 {
			line(limit.key, number(limit.value))
		}
	}
	b.about(about)
	return b.String()
}
