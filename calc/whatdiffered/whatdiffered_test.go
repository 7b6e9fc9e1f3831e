package whatdiffered

import (
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/doubt"
)

func read(t *testing.T, path string) design.Design {
	t.Helper()
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := file.Parse(path, src)
	if err := design.FirstError(findings); err != nil {
		t.Fatal(err)
	}
	return doc.Design
}

// brewed is a design as it would be measured if its inputs were so: all that is
// measured of it is from the model itself, which is what a cause is looked for in.
func brewed(t *testing.T, d design.Design, z [doubt.Inputs]float64, dryness float64) design.Design {
	t.Helper()
	b, err := calc.NewEngine().Brew(d, 0)
	if err != nil {
		t.Fatal(err)
	}
	var x calc.Draw
	in := b.Inputs(&z)
	b.Draw(&in, &x)
	at := time.Date(2026, 6, 20, 16, 0, 0, 0, time.UTC)
	d = d.Clone()
	add := func(what string, hours, value float64) {
		r := design.Reading{What: what, At: at.Add(time.Duration(hours * float64(time.Hour))), Value: value, TemperatureC: 20, Instrument: "hydrometer"}
		d.Reading = append(d.Reading, r)
	}
	add("pitched", 0, 1)
	add("original-gravity", 0, math.Round(x.OriginalGravitySG()*1e4)/1e4)
	for _, h := range d.Honey {
		add("honey-added", 60, h.MassKg)
	}
	add("final-gravity", 500, math.Round(x.FinalGravitySG*1e4)/1e4)
	if dryness != 0 {
		add("perceived-dryness", 600, x.Dryness+dryness)
	}
	return d
}

func of(t *testing.T, d design.Design) map[string]Miss {
	t.Helper()
	all, err := Of(d)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]Miss{}
	for _, m := range all {
		sum := 0.0
		for _, p := range m.Parts {
			if math.IsNaN(p.By) || math.IsNaN(p.SD) {
				t.Errorf("%s: %+v", m.Key, p)
			}
			sum += p.By
		}
		if math.Abs(sum-m.By()) > 1e-9*(1+math.Abs(m.By())) {
			t.Errorf("%s: the parts sum to %v, the miss is %v", m.Key, sum, m.By())
		}
		out[m.Key] = m
		t.Logf("%s: planned %.4f, measured %.4f: %+v, together %v %.4f", m.Key, m.Planned, m.Measured, m.Parts, m.Together, m.ByTogether)
	}
	return out
}

func part(m Miss, c Cause) Part {
	for _, p := range m.Parts {
		if p.Cause == c {
			return p
		}
	}
	return Part{}
}

// The parts sum to the miss, of every batch that there is.
func TestPartsSumToTheMiss(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../assets/demo/batches/2*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no batches", err)
	}
	for _, f := range files {
		if got := of(t, read(t, f)); len(got) == 0 {
			t.Errorf("%s: nothing is said", f)
		}
	}
}

// What a made-up batch missed for one reason is put down to it.
func TestOneReasonIsFound(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	var z [doubt.Inputs]float64
	z[doubt.Efficiency] = -2
	low := of(t, brewed(t, d, z, 0))
	m := low["original_gravity_sg"]
	// The plan's own doubt of 2 points is 0.00105 SG here, the hydrometer's mark and
	// zero 0.0007: between normals two thirds of the miss are the yield's, and a
	// little less as readings may be wrong.
	if p := part(m, Yield); m.By() > -0.001 || p.By > 0.55*m.By() || !p.Sure() {
		t.Errorf("a low yield: %+v", m)
	}
	// What the strain leaves, the malt may as well have left: final gravity alone
	// can't tell them apart, but it is not the yield and not the thermometer alone.
	z = [doubt.Inputs]float64{doubt.Strain: 1.6}
	m = of(t, brewed(t, d, z, 0))["final_gravity_sg"]
	strain, malt := part(m, Strain), part(m, Malt)
	if m.By() > -0.001 || strain.By+malt.By > 0.55*m.By() {
		t.Errorf("a hungry strain: %+v", m)
	}
	if strain.Sure() && malt.Sure() {
		t.Errorf("strain and malt are told apart by a final gravity: %+v", m)
	}
	// A palate that finds the same beer drier.
	m = of(t, brewed(t, d, [doubt.Inputs]float64{}, 15))["dryness"]
	if p := part(m, Palate); math.Abs(p.By-15) > 4 {
		t.Errorf("a dry palate: %+v", m)
	}
}

// Less honey than planned is put down to the honey that went in.
func TestHoneyAsItWentIn(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	less := d.Clone()
	less.Honey[0].MassKg /= 2
	batch := brewed(t, less, [doubt.Inputs]float64{}, 0)
	batch.Honey = d.Honey // as planned; half of it is in the readings
	m := of(t, batch)["strength_pct"]
	if p := part(m, HoneyAdded); m.By() > -0.3 || math.Abs(p.By-m.By()) > 0.3*math.Abs(m.By()) {
		t.Errorf("half of the honey: %+v", m)
	}
}

// A batch without any reading says nothing, and one that can't be brewed is an error.
func TestNothingMeasured(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	if all, err := Of(d); err != nil || len(all) != 0 {
		t.Errorf("%+v, %v", all, err)
	}
	d.Yeast = nil
	if _, err := Of(d); err == nil {
		t.Error("without a yeast")
	}
}
