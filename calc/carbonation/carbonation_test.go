package carbonation_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/carbonation"
	"skep/calc/message"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tolerance)
	}
}

// TestWater: CRC Handbook, p. 8-90, 100 kPa (stated to be good to about 2 %),
// and Murray & Riley 1971 at 1 atm.
func TestWater(t *testing.T) {
	t.Parallel()
	for _, r := range [][2]float64{{0, 1.337}, {20, 0.704}, {40, 0.431}, {100, 0.196}} {
		near(t, "mole fraction, 1/1000", 1000*carbonation.MoleFraction(r[0], 100), r[1], 0.01*r[1])
	}
	near(t, "volumes at 10 °C", carbonation.Volumes(10, 101.325), 1.1926, 0.02*1.1926)
	near(t, "g/L at 20 °C", carbonation.GramsPerLitre(20, 101.325), 1.749, 0.001)
	near(t, "no pressure", carbonation.Volumes(20, 0), 0, 0)
	near(t, "no gas", carbonation.PressureKPa(20, -1), 0, 0)
	rapid.Check(t, func(t *rapid.T) {
		c, p := rapid.Float64Range(0, 100).Draw(t, "°C"), rapid.Float64Range(0, 1000).Draw(t, "kPa")
		v := carbonation.Volumes(c, p)
		if back := carbonation.PressureKPa(c, v); math.Abs(back-p) > 1e-9*(1+p) {
			t.Fatalf("%v kPa comes back as %v", p, back)
		}
		if c < 99 && p > 1 && carbonation.Volumes(c+1, p) >= v {
			t.Fatalf("a degree warmer holds as much as %v", v)
		}
	})
}

// TestChart: rows of both regressions of the ASBC chart, which part by 0.1.
func TestChart(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ f, psi, first, second float64 }{
		{38, 10.20, 2.4, 2.418}, {32, 10, 2.688, 2.669}, {68, 27.65, 2.5, 2.413},
	} {
		got := carbonation.ChartVolumes((r.f-32)/1.8, r.psi*0.0689476)
		near(t, "volumes", got, (r.first+r.second)/2, 0.005)
		near(t, "first", got, r.first, 0.05)
		near(t, "second", got, r.second, 0.05)
	}
	near(t, "bar for 2.5 at 40 °F", carbonation.ChartBarGauge(40.0/9, 2.5), 12.27*0.0689476, 0.001)
}

// TestResidual: the regression worked out; warmer than its 25 °C it keeps
// falling, as the gas does, though the parabola would turn up at 34 °C.
func TestResidual(t *testing.T) {
	t.Parallel()
	for _, r := range [][2]float64{{0, 1.708}, {10, 1.199}, {20, 0.861}, {25, 0.757}} {
		near(t, "volumes", carbonation.ResidualVolumes(r[0]), r[1], 0.001)
	}
	// Beyond, it keeps the share that water would (Henry's law).
	for _, c := range []float64{30, 40} {
		near(t, "as water", carbonation.ResidualVolumes(c)/carbonation.ResidualVolumes(25),
			carbonation.GramsPerLitre(c, 101.325)/carbonation.GramsPerLitre(25, 101.325), 1e-9)
	}
	for c := 0.0; c < 60; c++ {
		if carbonation.ResidualVolumes(c+1) >= carbonation.ResidualVolumes(c) {
			t.Errorf("beer keeps as much at %v as at %v °C", c+1, c)
		}
	}
	near(t, "held below 0", carbonation.ResidualVolumes(-5), 1.708, 0.001)
}

// TestPrimer: stoichiometry by atomic masses: 20 L at 20 °C to 2.4 volumes take
// 118.3 g of sucrose or 137.0 g of dextrose monohydrate.
func TestPrimer(t *testing.T) {
	t.Parallel()
	kept := carbonation.ResidualVolumes(20)
	near(t, "sucrose", 20*carbonation.PrimerGPerL(carbonation.TableSugar, 0, kept, 2.4), 118.3, 0.1)
	near(t, "dextrose", 20*carbonation.PrimerGPerL(carbonation.Dextrose, 0, kept, 2.4), 137.0, 0.1)
	near(t, "honey for a volume", carbonation.PrimerGPerL(carbonation.Honey, 17.2, 0, 1), 5.1, 0.15)
	near(t, "none", carbonation.PrimerGPerL(carbonation.None, 0, 0, 2), 0, 0)
	near(t, "unknown", carbonation.PrimerGPerL("gas", 0, 0, 2), 0, 0)
	near(t, "enough", carbonation.PrimerGPerL(carbonation.TableSugar, 0, 2, 1), 0, 0)
	if _, ok := carbonation.CO2PerGram("gas", 0); ok {
		t.Error("an unknown primer is known")
	}
}

// TestExtractBetween: Balling per litre of finished beer, worked out apart: CO2
// in g/L and volumes of falls of one and of four points.
func TestExtractBetween(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ oe, from, to, grams, volumes float64 }{
		{8, 1.006, 1.005, 0.988, 0.500}, {12, 1.010, 1.009, 0.993, 0.503}, {16, 1.010, 1.009, 0.997, 0.505},
		{20, 1.020, 1.019, 1.005, 0.508}, {12, 1.014, 1.010, 3.978, 2.012},
	} {
		v := carbonation.VolumesFromExtract(carbonation.ExtractBetween(r.oe, r.from, r.to))
		near(t, "CO2", v*carbonation.GramsPerVolume, r.grams, 0.001)
		near(t, "volumes", v, r.volumes, 0.001)
	}
	near(t, "upwards", carbonation.ExtractBetween(12, 1.010, 1.014), 0, 0)
	near(t, "nothing", carbonation.VolumesFromExtract(-1), 0, 0)
}

func midsummer() carbonation.Package {
	return carbonation.Package{
		VolumesCO2: 2.4, Primer: carbonation.TableSugar, PrimerMoisturePct: 17.5,
		WarmestSinceC: 19, StoreC: 25, RatedVolumes: 3,
	}
}

// TestBottle: 2.5 volumes in water are 2.86 bar absolute at 20 °C and 3.73 at 30
// (worked out with Carroll); 0.945 of them is as much in beer.
func TestBottle(t *testing.T) {
	t.Parallel()
	p := midsummer()
	p.VolumesCO2 = 2.5 * 0.945
	for _, r := range [][2]float64{{20, 2.86}, {30, 3.73}} {
		p.StoreC = r[0]
		b := carbonation.Bottle(p)
		near(t, "volumes", b.Volumes, 2.5*0.945, 1e-9)
		near(t, "pressure", b.BarGauge, r[1]-1.013, 0.01)
	}
}

// TestBottleByPrint: charts printed for beer, read apart from both regressions (D.
// Miller, Brewing Techniques 2(1); the last two a US brewery's trade chart): a
// bottle that holds the volumes has the pressure, within what 0.03 volumes are.
func TestBottleByPrint(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ f, psi, volumes float64 }{
		{32, 10, 2.70}, {36, 12, 2.67}, {40, 12, 2.47}, {40, 10, 2.30}, {45, 12, 2.26}, {36, 10.2, 2.5}, {40, 12.4, 2.5},
	} {
		bar := r.psi * 0.0689476
		near(t, fmt.Sprintf("bar of %v volumes at %v °F", r.volumes, r.f), carbonation.BottleBarGauge((r.f-32)/1.8, r.volumes), bar, 0.03*(bar+1.01325)/r.volumes)
	}
}

// TestKegAtAltitude: a keg that holds so much at the sea takes the difference of
// the air more on a mountain: at 2000 m 0.218 bar (ISA, worked out).
func TestKegAtAltitude(t *testing.T) {
	t.Parallel()
	near(t, "volumes", carbonation.KegVolumes(4, 0.8+0.218, 79.495), carbonation.KegVolumes(4, 0.8, 0), 0.001)
	near(t, "at the sea", carbonation.KegVolumes(4, 0.8, 0), carbonation.ChartVolumes(4, 0.8), 0)
}

func TestBottleWarnings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		change func(p *carbonation.Package)
		says   string
	}{
		{"sound", func(*carbonation.Package) {}, ""},
		{"enough already", func(p *carbonation.Package) { p.VolumesCO2 = 0.5 }, "no primer is needed"},
		{"no primer", func(p *carbonation.Package) { p.Primer = carbonation.None }, "without a primer"},
		{"no primer wanted", func(p *carbonation.Package) { p.Primer, p.VolumesCO2 = carbonation.None, 0.9 }, ""},
		{"keg", func(p *carbonation.Package) { p.Keg, p.VolumesCO2 = true, 4 }, ""},
	} {
		p := midsummer()
		c.change(&p)
		b := carbonation.Bottle(p)
		all := message.InEnglish(b.Warnings, "\n")
		if (c.says == "") != (all == "") || !strings.Contains(all, c.says) {
			t.Errorf("%s: warnings %q, want %q", c.name, all, c.says)
		}
		if b.Volumes < b.ResidualVolumes {
			t.Errorf("%s: %+v", c.name, b)
		}
	}
	keg := midsummer()
	keg.Keg = true
	b := carbonation.Bottle(keg)
	near(t, "keg's volumes", b.Volumes, 2.4, 1e-9)
	near(t, "keg's primer", b.PrimerGPerL, 0, 0)
}
