package reckon_test

import (
	"slices"
	"strings"
	"testing"

	"skep/calc/reckon"
)

// published is the table of names, arguments and results that scripts rely on.
var published = []struct{ name, in, out string }{
	{"plato", "sg", "plato"},
	{"gravity", "plato", "sg"},
	{"hydrometer", "sg temperature_c calibration_c", "sg"},
	{"refractometer", "reading_at_pitching_bx reading_today_bx wort_factor temperature_c", "sg strength_pct"},
	{"brix-temperature", "brix temperature_c", "brix"},
	{"strength", "original_sg final_sg", "strength_pct abw_pct real_extract_plato apparent_attenuation_pct real_attenuation_pct energy_kj_per_l"},
	{"duty-strength", "original_sg final_sg", "strength_pct declared_pct"},
	{"honey", "mass_kg moisture_pct volume_l temperature_c", "gravity_points plato honey_density_kg_l honey_volume_l fermentable_g"},
	{"honey-moisture", "refractive_index temperature_c", "moisture_pct"},
	{"strike", "grain_kg liquor_l grain_temperature_c target_c vessel_heat_kj_per_k vessel_temperature_c malt_moisture_pct", "strike_temperature_c"},
	{"bitterness", "alpha_pct mass_g minutes wort_sg volume_l temperature_c", "utilisation_pct ibu"},
	{"isomerise", "temperature_c minutes", "alpha_left_pct iso_pct degraded_pct"},
	{"cooling", "volume_l surface_cm2 opening_pct room_c minutes", "temperature_c"},
	{"colour", "colour_ebc mass_kg volume_l", "colour_ebc"},
	{"co2-water", "temperature_c pressure_kpa", "volumes_co2 g_per_l mole_fraction"},
	{"carbonation", "temperature_c pressure_bar_gauge altitude_m", "volumes_co2 g_per_l"},
	{"priming", "volume_l beer_temperature_c volumes_co2 primer moisture_pct altitude_m", "primer_g residual_volumes"},
	{"bottle", "gravity_now_sg gravity_final_sg primer_g_per_l beer_temperature_c store_c", "volumes_co2 pressure_bar_gauge"},
	{"dry-hops", "hops_g_per_l days temperature_c", "fall_points fall_points_high volumes_co2_high"},
	{"pasteurise", "minutes temperature_c volumes_co2", "pasteurisation_units spores_log_killed pressure_bar_absolute"},
	{"sweeten", "sugar_g_per_l", "gravity_points volumes_co2"},
	{"dilute", "sg volume_l target_sg", "water_l"},
	{"salts", "volume_l gypsum_g calcium_chloride_g epsom_g table_salt_g baking_soda_g chalk_g", "calcium_mg_l magnesium_mg_l sodium_mg_l chloride_mg_l sulphate_mg_l bicarbonate_mg_l"},
}

func keys(fields []reckon.Field) string {
	var out []string
	for _, f := range fields {
		out = append(out, f.Key)
	}
	return strings.Join(out, " ")
}

func TestPublishedTable(t *testing.T) {
	t.Parallel()
	list := reckon.List()
	if len(list) != len(published) {
		t.Fatalf("%d calculations, %d published", len(list), len(published))
	}
	for i, want := range published {
		c := list[i]
		if c.Name != want.name || keys(c.In) != want.in || keys(c.Out) != want.out {
			t.Errorf("%s: %s -> %s, published %s: %s -> %s", c.Name, keys(c.In), keys(c.Out), want.name, want.in, want.out)
		}
	}
}

// TestExplained: each calculation says what it is and whence, each argument
// whose range it has, each default lies in it.
func TestExplained(t *testing.T) {
	t.Parallel()
	for _, c := range reckon.List() {
		if c.About == "" || c.Source == "" {
			t.Errorf("%s: no about or source", c.Name)
		}
		for _, f := range c.In {
			switch {
			case len(f.Words) > 0:
				if f.Default != "" && !slices.Contains(f.Words, f.Default) {
					t.Errorf("%s %s: default %q", c.Name, f.Key, f.Default)
				}
			case f.Why == "" || !(f.Min < f.Max):
				t.Errorf("%s %s: %v to %v because %q", c.Name, f.Key, f.Min, f.Max, f.Why)
			}
		}
	}
}

// TestListIsACopy: a caller that sorts the list spoils nobody's.
func TestListIsACopy(t *testing.T) {
	t.Parallel()
	list := reckon.List()
	list[0], list[1] = list[1], list[0]
	if reckon.List()[0].Name != "plato" {
		t.Error("the list was changed")
	}
}
