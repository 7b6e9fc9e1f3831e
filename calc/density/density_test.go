package density_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/density"
)

func TestWaterIsZero(t *testing.T) {
	t.Parallel()
	if p := density.PlatoFromSG(1); p != 0 {
		t.Errorf("extract of water is %v, want exactly 0", p)
	}
	if s := density.SGFromPlato(0); s != 1 {
		t.Errorf("gravity at 0 °P is %v, want exactly 1", s)
	}
	if g := density.GramsPerLitre(0); g != 0 {
		t.Errorf("extract of water is %v g/L, want exactly 0", g)
	}
	if rho := density.WaterDensityKgM3(20); rho != density.WaterAt20KgM3 {
		t.Errorf("water at 20 °C is %v kg/m³, the constant is %v", rho, density.WaterAt20KgM3)
	}
}

// TestGravityTable: inverse of the ASBC cubic at whole degrees, computed
// outside from the printed formula (checks, section 1c).
func TestGravityTable(t *testing.T) {
	t.Parallel()
	for plato, want := range map[float64]float64{
		1: 1.003892, 2: 1.007798, 3: 1.011731, 4: 1.015690, 5: 1.019676, 6: 1.023690, 8: 1.031801,
		10: 1.040027, 11: 1.044183, 12: 1.048369, 13: 1.052585, 14: 1.056832, 15: 1.061109,
		16: 1.065418, 18: 1.074130, 20: 1.082972, 22: 1.091948, 25: 1.105668, 28: 1.119708, 30: 1.129252,
	} {
		if got := density.SGFromPlato(plato); math.Abs(got-want) > 1e-6 {
			t.Errorf("SG at %v °P is %.6f, want %.6f", plato, got, want)
		}
	}
}

// TestSucroseTable: the polynomial's own table, computed outside (checks,
// section 1d), kg/m³ at 0, 20, 40, 60, 80 °C.
func TestSucroseTable(t *testing.T) {
	t.Parallel()
	temperatures := []float64{0, 20, 40, 60, 80}
	for pct, row := range map[float64][]float64{
		0:  {999.84, 998.20, 992.21, 983.19, 971.78},
		5:  {1020.05, 1017.81, 1011.45, 1002.21, 990.67},
		10: {1040.98, 1038.12, 1031.39, 1021.93, 1010.25},
		12: {1049.55, 1046.44, 1039.57, 1030.02, 1018.29},
		15: {1062.65, 1059.16, 1052.06, 1042.38, 1030.56},
		20: {1085.10, 1080.98, 1073.50, 1063.58, 1051.63},
	} {
		for i, want := range row {
			if got := density.SucroseDensityKgM3(pct/100, temperatures[i]); math.Abs(got-want) > 0.0051 {
				t.Errorf("density of %v %% sucrose at %v °C is %.3f, want %.2f", pct, temperatures[i], got, want)
			}
		}
	}
}

// TestHydrometerTable: correction to add to the reading, computed outside from
// sucrose density and glass expansion (checks, section 1e); 10 °C, 15, 25, 30,
// 40, 50, 60.
func TestHydrometerTable(t *testing.T) {
	t.Parallel()
	temperatures := []float64{10, 15, 25, 30, 40, 50, 60}
	for sg, row := range map[float64][]float64{
		1.0000: {-0.00125, -0.00077, 0.00104, 0.00231, 0.00551, 0.00945, 0.01405},
		1.0196: {-0.00151, -0.00089, 0.00114, 0.00251, 0.00586, 0.00992, 0.01462},
		1.0400: {-0.00177, -0.00102, 0.00125, 0.00272, 0.00622, 0.01040, 0.01519},
		1.0483: {-0.00188, -0.00107, 0.00130, 0.00280, 0.00637, 0.01060, 0.01542},
		1.0611: {-0.00204, -0.00114, 0.00136, 0.00292, 0.00658, 0.01089, 0.01577},
		1.0829: {-0.00231, -0.00127, 0.00147, 0.00313, 0.00695, 0.01138, 0.01636},
	} {
		for i, add := range row {
			got, err := density.HydrometerSG(sg-add, temperatures[i], 20)
			// 3e-5: the table leaves out the buoyancy of air, ours has it.
			if err != nil || math.Abs(got-sg) > 3e-5 {
				t.Errorf("reading %.5f at %v °C corrects to %.5f (%v), want %.4f", sg-add, temperatures[i], got, err, sg)
			}
		}
	}
}

// TestHydrometerAt60F: an instrument marked for 60 °F, in water of 60 °F and of
// 20 °C.
func TestHydrometerAt60F(t *testing.T) {
	t.Parallel()
	const cal = 15.5556
	if sg, err := density.HydrometerSG(1, cal, cal); err != nil || math.Abs(sg-1) > 1e-6 {
		t.Errorf("water at its calibration temperature reads 1, corrects to %v (%v)", sg, err)
	}
	// In water of 20 °C it reads ρ(20)/ρ(15.56) = 998.203/999.016 (water tables).
	if r := density.HydrometerReading(1, 20, cal); math.Abs(r-0.99930) > 2e-5 {
		t.Errorf("a 60 °F hydrometer in water of 20 °C reads %.5f, want 0.99930 (0.99919 by the water tables, 0.00011 by the glass)", r)
	}
}

// TestPlatoSmooth: no jump and no kink where the cubic is led to zero: the
// slope, taken over a tenth of a point, changes by under 1 % between steps.
func TestPlatoSmooth(t *testing.T) {
	t.Parallel()
	const h = 1e-4
	last := 0.0
	for sg := 0.985; sg < 1.12; sg += h {
		slope := (density.PlatoFromSG(sg+h) - density.PlatoFromSG(sg)) / h
		if slope < 200 || slope > 290 {
			t.Fatalf("slope at %v is %v °P per SG", sg, slope)
		}
		if last != 0 && math.Abs(slope/last-1) > 0.002 {
			t.Fatalf("slope jumps from %v to %v at %v", last, slope, sg)
		}
		last = slope
	}
}

func TestRoundTrips(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		sg := rapid.Float64Range(density.MinSG, density.MaxSG).Draw(t, "sg")
		p := density.PlatoFromSG(sg)
		if got := density.SGFromPlato(p); math.Abs(got-sg) > 1e-12 {
			t.Fatalf("SG %v -> %v °P -> %v", sg, p, got)
		}
		if got := density.PlatoFromGramsPerLitre(density.GramsPerLitre(p)); math.Abs(got-p) > 1e-9 {
			t.Fatalf("%v °P through g/L comes back as %v", p, got)
		}
		if (sg < 1) != (p < 0) {
			t.Fatalf("SG %v has %v °P: apparent extract below water must be negative, and only there", sg, p)
		}
		if got := density.SGFromKgM3(density.KgM3FromSG(sg)); math.Abs(got-sg) > 1e-12 {
			t.Fatalf("SG %v through density comes back as %v", sg, got)
		}
		c := rapid.Float64Range(0, 80).Draw(t, "temperature")
		cal := rapid.Float64Range(density.MinCalibrationC, density.MaxCalibrationC).Draw(t, "calibration")
		r := density.HydrometerReading(sg, c, cal)
		if density.CheckSG(r) == nil {
			if got, err := density.HydrometerSG(r, c, cal); err != nil || math.Abs(got-sg) > 1e-10 {
				t.Fatalf("SG %v reads %v at %v °C, corrects to %v (%v)", sg, r, c, got, err)
			}
		}
		brix := rapid.Float64Range(0, 84).Draw(t, "brix")
		n, err := density.RefractiveIndexFromBrix(brix)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := density.BrixFromRefractiveIndex(n); err != nil || math.Abs(got-brix) > 1e-8 {
			t.Fatalf("%v °Bx -> n %v -> %v (%v)", brix, n, got, err)
		}
	})
}

// TestMonotone: warmer samples read lower, more extract reads higher.
func TestMonotone(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.995, 1.15).Draw(t, "reading")
		c := rapid.Float64Range(8, 75).Draw(t, "temperature") // nearer to 4 °C water itself turns round
		at, err1 := density.HydrometerSG(r, c, 20)
		warmer, err2 := density.HydrometerSG(r, c+2, 20)
		denser, err3 := density.HydrometerSG(r+0.001, c, 20)
		if err1 != nil || err2 != nil || err3 != nil {
			t.Fatal(err1, err2, err3)
		}
		if !(warmer > at) || !(denser > at) {
			t.Fatalf("reading %v at %v °C: %v, warmer %v, denser %v", r, c, at, warmer, denser)
		}
	})
}

func TestRefractiveIndex(t *testing.T) {
	t.Parallel()
	// 1.33299 water and 1.3478 10 % sucrose at 20 °C, sodium line (from
	// memory of the ICUMSA table).
	for n, want := range map[float64]float64{1.33299: 0, 1.3478: 10, 1.3638: 20} {
		if got, err := density.BrixFromRefractiveIndex(n); err != nil || math.Abs(got-want) > 0.05 {
			t.Errorf("n %v is %v °Bx (%v), want %v", n, got, err, want)
		}
	}
}

// TestRangeEnds: the ends of each range belong to it.
func TestRangeEnds(t *testing.T) {
	t.Parallel()
	errs := []error{
		density.CheckSG(density.MinSG), density.CheckSG(density.MaxSG),
		density.CheckBrix(density.MinBrix, density.MinBrixC), density.CheckBrix(density.MaxBrix, density.MaxBrixC),
		density.CheckTemperature(density.MinSucroseC), density.CheckTemperature(density.MaxSucroseC),
	}
	for _, n := range []float64{density.MinRefractiveIndex, density.MaxRefractiveIndex} {
		brix, err := density.BrixFromRefractiveIndex(n)
		_, back := density.RefractiveIndexFromBrix(brix)
		errs = append(errs, err, back)
	}
	for _, c := range []float64{density.MinCalibrationC, density.MaxCalibrationC} {
		_, err := density.HydrometerSG(1.04, 20, c)
		errs = append(errs, err)
	}
	for i, err := range errs {
		if err != nil {
			t.Errorf("case %d: the end of a range is refused: %v", i, err)
		}
	}
}

func TestBadInput(t *testing.T) {
	t.Parallel()
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e9}
	refused := func(what string, x float64, err error) {
		t.Helper()
		if err == nil {
			t.Errorf("%s %v is taken", what, x)
		} else if !strings.Contains(err.Error(), "outside") {
			t.Errorf("%s %v: no range in %q", what, x, err)
		}
	}
	for _, x := range bad {
		_, err := density.HydrometerSG(x, 20, 20)
		refused("reading", x, err)
		_, err = density.HydrometerSG(1.04, x, 20)
		refused("sample temperature", x, err)
		_, err = density.HydrometerSG(1.04, 20, x)
		refused("calibration", x, err)
		refused("gravity", x, density.CheckSG(x))
		refused("°Bx", x, density.CheckBrix(x, 20))
		refused("prism temperature", x, density.CheckBrix(10, x))
		_, err = density.BrixFromRefractiveIndex(x)
		refused("refractive index", x, err)
		_, err = density.RefractiveIndexFromBrix(x)
		refused("°Bx", x, err)
	}
}

// FuzzInverse: for any number that gravity or extract may be given, the
// inverses end, are finite, and come back.
func FuzzInverse(f *testing.F) {
	for _, x := range []float64{0, -3, 12, 1e-300, 1e300, math.Inf(1), math.NaN(), -1000, 293.9, 40} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		s, p := density.SGFromPlato(x), density.PlatoFromGramsPerLitre(x)
		if !(math.Abs(x) < 1e6) {
			return // no extract at all; it must only end
		}
		if math.IsNaN(s) || math.IsInf(s, 0) || math.IsNaN(p) || math.IsInf(p, 0) {
			t.Fatalf("%v gives SG %v, %v °P", x, s, p)
		}
		if math.Abs(x) < 1000 {
			if got := density.PlatoFromSG(s); math.Abs(got-x) > 1e-10*math.Max(1, math.Abs(x)) {
				t.Fatalf("%v °P -> %v -> %v", x, s, got)
			}
			if got := density.GramsPerLitre(p); math.Abs(got-x) > 1e-7*math.Max(1, math.Abs(x)) {
				t.Fatalf("%v g/L -> %v °P -> %v", x, p, got)
			}
		}
	})
}

func BenchmarkSGFromPlato(b *testing.B) {
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += density.SGFromPlato(12 + sum*1e-20)
	}
}

func BenchmarkPlatoFromGramsPerLitre(b *testing.B) {
	b.ReportAllocs()
	sum := 0.0
	for b.Loop() {
		sum += density.PlatoFromGramsPerLitre(125 + sum*1e-20)
	}
}
