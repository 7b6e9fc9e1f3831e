package reckon_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/reckon"
)

// do runs a calculation written as on the command line, arguments separated by
// semicolons.
func do(line string) (map[string]float64, []reckon.Value, error) {
	parts := strings.Split(line, "; ")
	in := map[string]string{}
	for _, p := range parts[1:] {
		key, value, _ := strings.Cut(p, "=")
		in[key] = value
	}
	values, err := reckon.Do(parts[0], in)
	out := map[string]float64{}
	for _, v := range values {
		out[v.Key] = v.Value
	}
	return out, values, err
}

// TestDo: one published or hand-worked case for each, source beside it. The
// tables stand in package skep/calc/record.
func TestDo(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		line      string
		key       string
		want      float64
		tolerance float64
		source    string
	}{
		{"plato; sg=1.0", "plato", 0, 0, "water"},
		{"plato; sg=1.03017", "plato", 7.60, 0.002, "USDA table 135-A-50"},
		{"plato; sg=1.030", "plato", 7.5582, 0.0005, "ASBC cubic worked out"},
		{"gravity; plato=4.0", "sg", 1.01569, 2e-5, "USDA table 135-A-50"},
		{"hydrometer; sg=1.0400; temperature_c=30", "sg", 1.0400 + 0.00272, 2e-4, "sucrose density and glass, worked out"},
		{"hydrometer; sg=1.0400", "sg", 1.0400, 1e-9, "at its calibration"},
		{"refractometer; reading_at_pitching_bx=12.48; reading_today_bx=6.18", "sg", 1.0098, 0.002, "OE 12, AE 2.5 by Balling; refractive increment of ethanol 0.43 °Bx per % (from memory)"},
		{"refractometer; reading_at_pitching_bx=12.48; reading_today_bx=6.18", "strength_pct", 5.13, 0.25, "the same"},
		{"brix-temperature; brix=10; temperature_c=10", "brix", 9.41, 0.01, "OIV compendium, Table I: -0.59"},
		{"brix-temperature; brix=15; temperature_c=16", "brix", 14.73, 0.01, "OIV compendium, Table I: -0.27"},
		{"strength; original_sg=1.048369; final_sg=1.00976", "strength_pct", 5.127, 0.01, "OE 12, AE 2.5 by Balling"},
		{"strength; original_sg=1.048369; final_sg=1.00976", "real_extract_plato", 4.2176, 0.01, "the same"},
		{"strength; original_sg=1.048369; final_sg=1.00976", "abw_pct", 4.0146, 0.01, "the same"},
		{"strength; original_sg=1.048369; final_sg=1.00976", "apparent_attenuation_pct", 79.17, 0.1, "the same"},
		{"duty-strength; original_sg=1.0571; final_sg=1.0", "strength_pct", 7.4801, 1e-6, "HMRC Notice 226, factor 0.131"},
		{"duty-strength; original_sg=1.0571; final_sg=1.0", "declared_pct", 7.4, 1e-9, "cut, not rounded"},
		{"honey; mass_kg=1; moisture_pct=17.2; volume_l=20", "gravity_points", 15.9, 0.2, "solids at 385 points L/kg"},
		{"honey; mass_kg=1; moisture_pct=17.2; volume_l=20", "fermentable_g", 828 * 0.93, 1e-9, "93 % of the solids"},
		{"honey; mass_kg=1; moisture_pct=18; volume_l=20", "honey_density_kg_l", 1.417, 0.005, "trade page at 18 %"},
		{"honey-moisture; refractive_index=1.4940", "moisture_pct", 17.0, 0.03, "Chataway's table"},
		{"honey-moisture; refractive_index=1.4917; temperature_c=30", "moisture_pct", 17.0, 0.03, "0.00023 per °C"},
		{"strike; grain_kg=1; liquor_l=3; grain_temperature_c=20; target_c=66", "strike_temperature_c", 72.13, 0.05, "heat balance at specific heat 0.40"},
		{"strike; grain_kg=100; liquor_l=268; grain_temperature_c=27; target_c=65.96; malt_moisture_pct=2", "strike_temperature_c", 69, 0.05, "Pauls and Whites, example"},
		{"strike; grain_kg=0; liquor_l=10; target_c=66; vessel_heat_kj_per_k=4; vessel_temperature_c=16", "strike_temperature_c", 66 + 4*50/(9.982*4.187), 0.05, "the vessel alone, by hand"},
		{"bitterness; alpha_pct=6.4; mass_g=42.52; minutes=60; wort_sg=1.080; volume_l=18.93", "ibu", 25, 0.5, "Palmer, ch. 5.5"},
		{"bitterness; alpha_pct=6.4; mass_g=42.52; minutes=30; wort_sg=1.057; volume_l=18.93", "utilisation_pct", 16.6, 0.05, "Palmer, ch. 5.5"},
		{"bitterness; alpha_pct=5.75; mass_g=45.36; minutes=10; wort_sg=1.0641; volume_l=4.69; temperature_c=85.2", "ibu", 25.5, 2.5, "Hosom 10, measured"},
		{"isomerise; temperature_c=100; minutes=30", "iso_pct", 29.76, 0.01, "Hosom 10"},
		{"isomerise; temperature_c=100; minutes=30", "alpha_left_pct", 68.75, 0.01, "exp(-0.01249·30)"},
		{"isomerise; temperature_c=100; minutes=30", "degraded_pct", 100 - 68.75 - 29.76, 0.02, "the rest"},
		{"isomerise; temperature_c=90; minutes=60", "alpha_left_pct", 73.17, 0.01, "Malowicki's constants worked out"},
		{"cooling; volume_l=15.6; surface_cm2=710.33; room_c=13; minutes=15", "temperature_c", 86.8, 1.5, "Hosom 16, measured"},
		{"cooling; volume_l=23.4; surface_cm2=1083.8; opening_pct=50; room_c=13; minutes=15", "temperature_c", 87.8, 1.9, "Hosom 16, measured"},
		{"co2-water; temperature_c=20; pressure_kpa=100", "mole_fraction", 0.000704, 0.00001, "CRC Handbook"},
		{"co2-water; temperature_c=10", "volumes_co2", 1.1926, 0.02, "Murray & Riley 1971, 1 atm"},
		{"carbonation; temperature_c=0; pressure_bar_gauge=0.6895", "g_per_l", 2.678 * 1.977, 0.02, "44.01 g/mol in 22.26 L"},
		{"carbonation; temperature_c=0; pressure_bar_gauge=0.6895", "volumes_co2", 2.669, 0.05, "chart regression at 10 psi"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer=table sugar", "primer_g", 118.3, 0.1, "stoichiometry"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4", "residual_volumes", 0.861, 0.001, "regression"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer=dextrose", "primer_g", 137.0, 0.1, "stoichiometry"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer=honey; moisture_pct=17.2", "primer_g", 20 * 1.539 * 5.1, 5, "95 % fermentable assumed there, 93 here"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer=none", "primer_g", 0, 0, "none"},
		{"bottle; gravity_now_sg=1.014; gravity_final_sg=1.010", "volumes_co2", 0.861 + 2.012, 0.005, "Balling worked out"},
		{"bottle; gravity_now_sg=1.010; gravity_final_sg=1.010; primer_g_per_l=6.30; store_c=20", "pressure_bar_gauge", 2.86/0.945 - 1.013, 0.02, "2.5 volumes in water, Carroll worked out; beer holds 0.945 of it, printed charts"},
		{"dry-hops; hops_g_per_l=10; days=5", "fall_points_high", 1.22 * 3.88, 0.1, "Kirkpatrick & Shellhammer 2018: 1 °P real"},
		{"pasteurise; minutes=20; temperature_c=62", "pasteurisation_units", 38.8, 0.05, "MEBAK's formula worked out"},
		{"pasteurise; minutes=15; temperature_c=60; volumes_co2=2.5", "pressure_bar_absolute", 6.81 / 0.945, 0.01, "6.81 in water, Carroll worked out; beer holds 0.945 of it, printed charts"},
		{"sweeten; sugar_g_per_l=3.844", "volumes_co2", 1, 0.001, "atomic masses"},
		{"dilute; sg=1.060; volume_l=20; target_sg=1.050", "water_l", 4.0, 0.05, "points times litres"},
		{"salts; volume_l=1; gypsum_g=1", "sulphate_mg_l", 557.9, 0.1, "atomic masses"},
		{"salts; volume_l=10; chalk_g=1", "calcium_mg_l", 40.04, 0.01, "atomic masses"},
	} {
		got, values, err := do(c.line)
		if err != nil {
			t.Errorf("%s: %v", c.line, err)
			continue
		}
		if v, ok := got[c.key]; !ok || !(math.Abs(v-c.want) <= c.tolerance) {
			t.Errorf("%s: %s = %v, want %v within %v (%s)", c.line, c.key, v, c.want, c.tolerance, c.source)
		}
		for _, v := range values {
			if v.String() == "" || strings.Contains(v.String(), "e") {
				t.Errorf("%s: %s is printed as %q", c.line, v.Key, v)
			}
		}
	}
}

// TestColour: malt of 10 °L is about 12.7 SRM, 25.0 EBC (an encyclopaedia's
// page); 0.5 kg of it in 8.3454 L is 5 MCU, 4.500 SRM by Morey, 8.86 EBC.
func TestColour(t *testing.T) {
	t.Parallel()
	got, _, err := do("colour; colour_ebc=25.0; mass_kg=0.5; volume_l=8.3454")
	if err != nil || math.Abs(got["colour_ebc"]-8.86) > 0.06 {
		t.Errorf("%v, %v", got, err)
	}
}

// TestRefused: what is wrong with the question, and what with a value.
func TestRefused(t *testing.T) {
	t.Parallel()
	const usage, input = "usage", "input"
	for _, c := range []struct{ line, kind, says string }{
		{"platto; sg=1", usage, "plato, gravity, hydrometer"},
		{"plato; sgg=1.05", usage, "it takes sg"},
		{"strength; original_sg=1.05", usage, "also needs final_sg"},
		{"strength", usage, "original_sg, final_sg"},
		{"plato; sg=water", input, `sg = "water" is not a number`},
		{"plato; sg=1,048", input, "with a point"},
		{"plato; sg=", input, "not a number"},
		{"plato; sg=NaN", input, "sg = NaN is outside 0.95 to 1.18"},
		{"plato; sg=-Inf", input, "outside"},
		{"plato; sg=1e999", input, "outside"},
		{"plato; sg=1.3", input, "sg = 1.3 is outside 0.95 to 1.18 SG: the range of the extract tables"},
		{"gravity; plato=60", input, "-13 to 40 °P"},
		{"hydrometer; sg=1.04; temperature_c=95", input, "temperature_c = 95 is outside 0 to 80 °C"},
		{"hydrometer; sg=1.04; calibration_c=60", input, "calibration_c"},
		{"refractometer; reading_at_pitching_bx=6; reading_today_bx=12", input, "nothing has fermented"},
		{"refractometer; reading_at_pitching_bx=30; reading_today_bx=1", input, "beyond the correlation"},
		{"strength; original_sg=1.01; final_sg=1.05", input, "final_sg = 1.05"},
		{"duty-strength; original_sg=1.15; final_sg=1.0", input, "100.7"},
		{"duty-strength; original_sg=1.0; final_sg=1.05", input, "final_sg = 1.05"},
		{"honey; mass_kg=50; volume_l=10", input, "less honey or more volume"},
		{"honey; mass_kg=1; volume_l=10; moisture_pct=50", input, "10 to 30 %"},
		{"honey-moisture; refractive_index=1.455", input, "refractive_index = 1.455"},
		{"strike; grain_kg=100; liquor_l=20; target_c=66", input, "take more liquor"},
		{"strike; grain_kg=10; liquor_l=20; target_c=66; malt_moisture_pct=12", input, "0 to 8 %: the range of the malt table"},
		{"bitterness; alpha_pct=40; mass_g=10; minutes=60; wort_sg=1.05; volume_l=20", input, "alpha_pct = 40 is outside 0 to 30"},
		{"bitterness; alpha_pct=4; mass_g=10; minutes=60; wort_sg=1.2; volume_l=20", input, "1.130"},
		{"bitterness; alpha_pct=4; mass_g=10; minutes=60; wort_sg=1.05; volume_l=0", input, "volume_l = 0"},
		{"isomerise; temperature_c=20; minutes=10", input, "60 to 130"},
		{"cooling; volume_l=10; surface_cm2=700; minutes=-1", input, "minutes = -1"},
		{"colour; colour_ebc=1500; mass_kg=20; volume_l=10", input, "where Morey's fit ends"},
		{"co2-water; temperature_c=20; pressure_kpa=5000", input, "below 1 MPa"},
		{"carbonation; temperature_c=60; pressure_bar_gauge=1", input, "the range of the chart"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer=syrup", input, "table sugar, dextrose, honey, none"},
		{"priming; volume_l=20; beer_temperature_c=20; volumes_co2=9", input, "0 to 6"},
		{"bottle; gravity_now_sg=1.01; gravity_final_sg=1.02", input, "gravity only falls"},
		{"dilute; sg=1.04; volume_l=20; target_sg=1.05", input, "boil longer"},
		{"dilute; sg=1.04; volume_l=20; target_sg=1.0", input, "target_sg = 1.0 is outside 1.001"},
		{"salts; volume_l=20; gypsum_g=-1", input, "gypsum_g = -1"},
	} {
		_, _, err := do(c.line)
		var wrongQuestion *reckon.UsageError
		var wrongValue *reckon.InputError
		kind := ""
		switch {
		case errors.As(err, &wrongQuestion):
			kind = usage
		case errors.As(err, &wrongValue):
			kind = input
			if wrongValue.Key == "" {
				t.Errorf("%s: no key", c.line)
			}
		}
		if kind != c.kind || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v (%s), want %q (%s)", c.line, err, kind, c.says, c.kind)
		}
	}
}

// TestAnyInputInRange: every calculation answers or refuses, never with NaN or
// infinity, over the whole of the ranges it states.
func TestAnyInputInRange(t *testing.T) {
	t.Parallel()
	for _, c := range reckon.List() {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			answered := false
			rapid.Check(t, func(t *rapid.T) {
				in := map[string]string{}
				for _, f := range c.In {
					switch {
					case !f.Required() && rapid.Bool().Draw(t, "leave out "+f.Key):
					case len(f.Words) > 0:
						in[f.Key] = rapid.SampledFrom(f.Words).Draw(t, f.Key)
					default:
						in[f.Key] = strconv.FormatFloat(rapid.Float64Range(f.Min, f.Max).Draw(t, f.Key), 'g', -1, 64)
					}
				}
				values, err := reckon.Do(c.Name, in)
				var refused *reckon.InputError
				if err != nil {
					if !errors.As(err, &refused) {
						t.Fatalf("%v: %v", in, err)
					}
					return
				}
				answered = true
				for _, v := range values {
					if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) {
						t.Fatalf("%v: %s = %v", in, v.Key, v.Value)
					}
				}
			})
			if !answered {
				t.Error("refused everything")
			}
		})
	}
}

// TestWordsAsTyped: a primer may be typed with a hyphen where a space is a
// nuisance.
func TestWordsAsTyped(t *testing.T) {
	t.Parallel()
	const rest = "priming; volume_l=20; beer_temperature_c=20; volumes_co2=2.4; primer="
	plain, _, err := do(rest + "table sugar")
	if err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"table-sugar", "Table_Sugar", " table sugar "} {
		got, _, err := do(rest + word)
		if err != nil || got["primer_g"] != plain["primer_g"] {
			t.Errorf("%q: %v, %v", word, got, err)
		}
	}
}

// TestInverses: calculations that undo each other do.
func TestInverses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		sg := rapid.Float64Range(0.96, 1.17).Draw(t, "sg")
		p, _, err := do("plato; sg=" + strconv.FormatFloat(sg, 'g', -1, 64))
		if err != nil {
			t.Fatal(err)
		}
		back, _, err := do("gravity; plato=" + strconv.FormatFloat(p["plato"], 'g', -1, 64))
		if err != nil || math.Abs(back["sg"]-sg) > 1e-9 {
			t.Fatalf("%v comes back as %v (%v)", sg, back["sg"], err)
		}
	})
}
