package calc

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/doubt"
)

// changes are what the kept design and the one at hand may differ in.
var changes = []struct {
	name string
	do   func(d *design.Design)
}{
	{"a degree hotter", func(d *design.Design) { d.Mash.Rest[0].TemperatureC++ }},
	{"three degrees cooler", func(d *design.Design) { d.Mash.Rest[0].TemperatureC -= 3 }},
	{"half an hour longer", func(d *design.Design) { d.Mash.Rest[0].Minutes += 30 }},
	{"a third more honey", func(d *design.Design) { d.Honey[0].MassKg *= 1.33 }},
	{"no honey", func(d *design.Design) { d.Honey[0].MassKg = 0 }},
	{"more grain", func(d *design.Design) { d.Grain[0].MassKg *= 1.1 }},
	{"another strain", func(d *design.Design) {
		d.Yeast[0].Name, d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = "another", 76, 82
	}},
	{"a strain that only has another name", func(d *design.Design) { d.Yeast[0].Name = "another" }},
}

// pair is a design and a changed one.
func pair(t testing.TB, name string, do func(d *design.Design)) (a, b design.Design) {
	a = demotest.Design(t, name)
	b = a.Clone()
	do(&b)
	return a, b
}

// truth draws what a pair of beers truly is, from a random source that has nothing
// in common with the engine's draws: malt, kit and palate the same in both, and
// strains of two names each their own.
func truth(t testing.TB, r *rand.Rand, a, b *Brew) [Outcomes]float64 {
	t.Helper()
	var z [doubt.Inputs]float64
	for j := range z {
		z[j] = r.NormFloat64()
	}
	var x, y Draw
	in := a.Inputs(&z)
	a.Draw(&in, &x)
	if a.yeast.Name != b.yeast.Name {
		z[doubt.Strain] = r.NormFloat64()
	}
	in = b.Inputs(&z)
	b.Draw(&in, &y)
	one, two := x.Beer.four(), y.Beer.four()
	for o := range two {
		two[o] -= one[o]
	}
	return two
}

func brews(t testing.TB, e *Engine, a, b design.Design) (x, y *Brew, d Difference) {
	t.Helper()
	from, err := e.Drawn(a, 0)
	if err != nil {
		t.Fatal(err)
	}
	if d, err = e.Difference(from, b, 0); err != nil {
		t.Fatal(err)
	}
	if x, err = e.Brew(a, 0); err != nil {
		t.Fatal(err)
	}
	if y, err = e.Brew(b, 0); err != nil {
		t.Fatal(err)
	}
	return x, y, d
}

// The bands against brute force: 20,000 random pairs, sorted. What 256 draws leave
// of noise is a tenth of the band and a little (TestBandsConverge).
func TestDifferencesAreThoseOfBruteForce(t *testing.T) {
	t.Parallel()
	const pairs = 20000
	grain := [Outcomes]float64{FinalGravity: 0.00005, Strength: 0.01, Dryness: 0.1, Body: 0.1}
	for _, c := range changes {
		a, b := pair(t, "middle", c.do)
		x, y, got := brews(t, NewEngine(), a, b)
		r := rand.New(rand.NewPCG(7, 11))
		var all [Outcomes][]float64
		for range pairs {
			for o, v := range truth(t, r, x, y) {
				all[o] = append(all[o], v)
			}
		}
		for o, band := range got.Four() {
			slices.Sort(all[o])
			low, mid, high := all[o][pairs/10], all[o][pairs/2], all[o][9*pairs/10]
			slack := 0.12*(high-low) + grain[o]
			if math.Abs(band.Low-low) > slack || math.Abs(band.Mid-mid) > slack || math.Abs(band.High-high) > slack {
				t.Errorf("%s, outcome %d: %.5g (%.5g to %.5g), brute force %.5g (%.5g to %.5g)", c.name, o, band.Mid, band.Low, band.High, mid, low, high)
			}
		}
	}
}

// Of simulated pairs of batches the bands hold four in five, which is what 10 to 90
// means; 75 to 85 % are asked for of each outcome.
func TestDifferencesCoverPairsOfBatches(t *testing.T) {
	t.Parallel()
	const pairs = 400
	var held, of [Outcomes]int
	e := NewEngine()
	r := rand.New(rand.NewPCG(3, 5))
	for _, name := range []string{"dry", "middle", "soft"} {
		for _, c := range changes {
			a, b := pair(t, name, c.do)
			x, y, got := brews(t, e, a, b)
			bands := got.Four()
			for range pairs {
				for o, v := range truth(t, r, x, y) {
					of[o]++
					if bands[o].Low-1e-9 <= v && v <= bands[o].High+1e-9 {
						held[o]++
					}
				}
			}
		}
	}
	for o := range held {
		pct := 100 * float64(held[o]) / float64(of[o])
		t.Logf("outcome %d: %.1f %% of %d", o, pct, of[o])
		if pct < 75 || pct > 85 {
			t.Errorf("outcome %d: the band of the difference holds %.1f %% of simulated pairs, want 75 to 85 %%", o, pct)
		}
	}
}

// What is unknown of both alike cancels: a degree of the mash is surer than either
// beer, and a beer differs from itself by nothing.
func TestDifferencesAreSurerThanBeers(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	a, b := pair(t, "middle", changes[0].do)
	_, _, d := brews(t, e, a, b)
	p, err := e.Predict(a)
	if err != nil {
		t.Fatal(err)
	}
	if d.Dryness.Unsure() || d.FinalGravitySG.Unsure() || d.FinalGravitySG.Mid <= 0 || d.Dryness.Mid >= 0 {
		t.Errorf("a degree hotter: %+v, want surely more gravity and less dry", d)
	}
	if wide, of := d.Dryness.High-d.Dryness.Low, p.Dryness.High-p.Dryness.Low; wide > of/4 {
		t.Errorf("the difference of dryness is %.2f wide, of a beer %.2f", wide, of)
	}
	_, _, none := brews(t, e, a, a)
	if none != (Difference{}) {
		t.Errorf("a beer differs from itself: %+v", none)
	}
	// Two strains of one range: nobody can say which is drier.
	a, b = pair(t, "middle", changes[len(changes)-1].do)
	if _, _, d = brews(t, e, a, b); !d.Dryness.Unsure() || !d.FinalGravitySG.Unsure() || d.Dryness.High-d.Dryness.Low < 1 {
		t.Errorf("two strains of one range: %+v", d)
	}
}

// A degree more in a frame is the difference of two designs. Of a later rest it is
// the step along that rest's own curve, as it is drawn: how far the mash temperature
// acts is put in along one axis at a time, and a table over another rest may differ
// by a quarter of the step.
func TestHotterIsTheDifference(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Mash.Rest = []design.Rest{{TemperatureC: 62, Minutes: 10}, {TemperatureC: 68, Minutes: 40}}
	for rest := range d.Mash.Rest {
		e := NewEngine()
		at := d.Mash.Rest[rest].TemperatureC
		_, c, err := e.Frame(d, rest, []float64{at, at + 1})
		if err != nil {
			t.Fatal(err)
		}
		up := d.Clone()
		up.Mash.Rest[rest].TemperatureC++
		_, _, x := brews(t, e, d, up)
		for o, want := range x.Four() {
			if got := c.Hotter[o]; rest == 0 && got != want {
				t.Errorf("outcome %d: %+v, the designs differ by %+v", o, got, want)
			}
			step, band := c.Bands[o][1].Mid-c.Bands[o][0].Mid, c.Hotter[o]
			if math.Abs(band.Mid-step) > 0.25*math.Abs(step) { // the middle of differences, and the difference of middles
				t.Errorf("rest %d, outcome %d: %+v, its curve goes by %v", rest, o, band, step)
			}
		}
	}
}

// Honey in the boil loses character for sure, and none has none.
func TestDifferenceOfCharacter(t *testing.T) {
	t.Parallel()
	e := NewEngine()
	a, b := pair(t, "middle", func(d *design.Design) { d.Honey[0].Moment = design.MomentBoil })
	if _, _, d := brews(t, e, a, b); !(d.HoneyCharacter.High < 0) {
		t.Errorf("honey boiled instead: %+v", d.HoneyCharacter)
	}
	a, b = pair(t, "middle", func(d *design.Design) { d.Honey = nil })
	_, _, d := brews(t, e, a, b)
	p, err := e.Predict(a)
	if err != nil {
		t.Fatal(err)
	}
	if c := p.HoneyCharacter; math.Abs(d.HoneyCharacter.Mid+c.Mid) > 1e-9 || math.Abs(d.HoneyCharacter.Low+c.High) > 1e-9 || math.Abs(d.HoneyCharacter.High+c.Low) > 1e-9 {
		t.Errorf("without honey %+v, the beer with it has %+v", d.HoneyCharacter, c)
	}
}

// BenchmarkDifference is what the frame of a moved lever pays more.
func BenchmarkDifference(b *testing.B) {
	d, e := demotest.Design(b, "middle"), NewEngine()
	from, err := e.Drawn(d, 0)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		d.Honey[0].MassKg = 0.3 + float64(n%100)/200
		if _, err := e.Difference(from, d, 0); err != nil {
			b.Fatal(err)
		}
	}
}
