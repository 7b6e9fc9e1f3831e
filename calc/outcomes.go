package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/parallel"
	"skep/calc/taste"
)

// scratch holds the draws of one quantity after another, so that a frame
// allocates nothing.
type scratch [Outcomes][]float64

func newScratch(n int) *scratch {
	var s scratch
	for o := range s {
		s[o] = make([]float64, n)
	}
	return &s
}

// BandOf is the 10th, 50th and 90th percentile of draws of equal weight, which it
// may reorder: the one estimator of every band.
func BandOf(x []float64) Band {
	low, mid, high := doubt.Percentiles(x)
	return Band{low, mid, high}
}

// outcomesOf are the four pictures' quantities with the mash of every draw at hand.
// It allocates nothing.
func (b *Brew) outcomesOf(row []mashCell, s *scratch) (bands [Outcomes]Band) {
	var r Beer
	for i := range b.draws {
		b.balance(&row[i], &b.draws[i], &b.honeys[i], &r)
		s[FinalGravity][i] = r.FinalGravitySG
		s[Strength][i] = r.ABVPct
		s[Dryness][i] = r.Dryness
		s[Body][i] = r.Body
	}
	for o := range bands {
		bands[o] = BandOf(s[o])
	}
	return bands
}

// drawnQuantity is one drawn quantity of a prediction.
type drawnQuantity struct {
	key  string // as published
	of   func(r *Beer) float64
	band func(p *Prediction) *Band
}

// quantities are all that come from the draws, in the order of the prediction.
var quantities = []drawnQuantity{
	{"original_gravity_sg", func(r *Beer) float64 { return density.QuickSG(r.OriginalPlato) }, func(p *Prediction) *Band { return &p.OriginalGravitySG }},
	{"effective_original_gravity_sg", func(r *Beer) float64 { return density.QuickSG(r.EffectivePlato) }, func(p *Prediction) *Band { return &p.EffectiveOriginalGravitySG }},
	{"final_gravity_sg", func(r *Beer) float64 { return r.FinalGravitySG }, func(p *Prediction) *Band { return &p.FinalGravitySG }},
	{"strength_pct", func(r *Beer) float64 { return r.ABVPct }, func(p *Prediction) *Band { return &p.StrengthPct }},
	{"apparent_attenuation_pct", func(r *Beer) float64 { return r.ApparentAttenuationPct() }, func(p *Prediction) *Band { return &p.ApparentAttenuationPct }},
	{"real_attenuation_pct", func(r *Beer) float64 { return r.RDFPct }, func(p *Prediction) *Band { return &p.RealAttenuationPct }},
	{"residual_sugar_g_l", func(r *Beer) float64 { return r.Residue.Sugars() }, func(p *Prediction) *Band { return &p.ResidualSugarGL }},
	{"sweetness_g_l", func(r *Beer) float64 { return r.SweetnessGL }, func(p *Prediction) *Band { return &p.SweetnessGL }},
	{"dextrin_g_l", func(r *Beer) float64 { return r.Residue.Dextrin }, func(p *Prediction) *Band { return &p.DextrinGL }},
	{"real_extract_g_l", func(r *Beer) float64 { return r.ReGL }, func(p *Prediction) *Band { return &p.RealExtractGL }},
	{"dryness", func(r *Beer) float64 { return r.Dryness }, func(p *Prediction) *Band { return &p.Dryness }},
	{"body", func(r *Beer) float64 { return r.Body }, func(p *Prediction) *Band { return &p.Body }},
	{"energy_kj_per_l", func(r *Beer) float64 { return alcohol.EnergyKJPerL(r.ABWPct, r.RePlato, r.FinalGravitySG) }, func(p *Prediction) *Band { return &p.EnergyKJPerL }},
	{"wort.glucose", func(r *Beer) float64 { return r.Wort.Glucose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Glucose }},
	{"wort.fructose", func(r *Beer) float64 { return r.Wort.Fructose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Fructose }},
	{"wort.sucrose", func(r *Beer) float64 { return r.Wort.Sucrose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Sucrose }},
	{"wort.maltose", func(r *Beer) float64 { return r.Wort.Maltose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Maltose }},
	{"wort.maltotriose", func(r *Beer) float64 { return r.Wort.Maltotriose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Maltotriose }},
	{"wort.dextrin", func(r *Beer) float64 { return r.Wort.Dextrin * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Dextrin }},
}

// Value is a drawn quantity or time of a beer by its published key.
func (x *Draw) Value(key string) (float64, bool) {
	for i := range quantities {
		if quantities[i].key == key {
			return quantities[i].of(&x.Beer), true
		}
	}
	for i := range moments {
		if moments[i].key == key {
			return moments[i].of(&x.Times), true
		}
	}
	return 0, false
}

// moment is one drawn time of a prediction, or a gravity of that time.
type moment struct {
	key  string
	of   func(t *Times) float64
	band func(p *Prediction) *Band
}

// moments are the times that come from the draws' courses.
var moments = []moment{
	{"height_hours", func(t *Times) float64 { return t.HeightHours }, func(p *Prediction) *Band { return &p.HeightHours }},
	{"honey_window_hours.opens", func(t *Times) float64 { return t.Window[0] }, func(p *Prediction) *Band { return &p.HoneyWindowHours[0] }},
	{"honey_window_hours.closes", func(t *Times) float64 { return t.Window[1] }, func(p *Prediction) *Band { return &p.HoneyWindowHours[1] }},
	{"honey_window_sg.opens", func(t *Times) float64 { return t.WindowSG[0] }, func(p *Prediction) *Band { return &p.HoneyWindowSG[0] }},
	{"honey_window_sg.closes", func(t *Times) float64 { return t.WindowSG[1] }, func(p *Prediction) *Band { return &p.HoneyWindowSG[1] }},
	{"finished_hours", func(t *Times) float64 { return t.FinishedHours }, func(p *Prediction) *Band { return &p.FinishedHours }},
}

// predict fills in all that comes from the draws; visit sees each of them, from
// two goroutines.
func (e *Engine) predict(b *Brew, far followed, visit func(i int, x *Draw)) Prediction {
	e.eachDraw(b, far, func(i int, x *Draw) {
		e.times[i] = x.Times
		visit(i, x)
	})
	p := e.drawnBeer(b)
	v := e.scratch[0][0][:len(b.draws)]
	for _, q := range moments {
		for i := range v {
			v[i] = q.of(&e.times[i])
		}
		*q.band(&p) = BandOf(v)
	}
	return p
}

// drawnBeer is what the draws say of the beer, without any time.
func (e *Engine) drawnBeer(b *Brew) Prediction {
	p := Prediction{Title: b.d.Title, Yeast: b.yeast.Name}
	v := e.scratch[0][0][:len(b.draws)]
	for _, q := range quantities {
		for i := range v {
			v[i] = q.of(&e.beers[i])
		}
		*q.band(&p) = BandOf(v)
	}
	var middle Beer
	b.at(b.d.Mash.Rest[0].TemperatureC, &b.middle, &middle)
	p.Residue = middle.Residue
	p.DrynessWord = taste.DrynessWord(p.Dryness.Mid)
	p.BodyWord = taste.BodyWord(p.Body.Mid)
	return p
}

// sameCourse tells whether two rows differ in the palate alone: what readings leave is
// drawn from few, the likely ones oftener, and stands in order.
func sameCourse(a, b *[doubt.Inputs]float64) bool {
	for k := range a {
		switch doubt.Input(k) {
		case doubt.MaltSweet, doubt.SimpleSweet, doubt.PalateDryness, doubt.PalateBody:
		default:
			if a[k] != b[k] {
				return false
			}
		}
	}
	return true
}

// inARow is how many draws a goroutine takes at once: what is noted of them then fills
// lines of the processor's cache, which two would fight over.
const inARow = 8

// eachDraw works out every draw, with as much of its course as is asked for, on two
// goroutines, and keeps the beers: visit, nil for none, is called from both, with
// another i each time.
func (e *Engine) eachDraw(b *Brew, far followed, visit func(i int, x *Draw)) {
	tempC := b.d.Mash.Rest[0].TemperatureC
	cells := e.rows.at(b, e.fixed, tempC)[0]
	if len(e.windows) < len(b.draws) {
		e.windows = make([]keptWindow, len(b.draws))
	}
	parallel.Each(workers, (len(b.draws)+inARow-1)/inARow, func(worker, n int) {
		x := &e.work[worker]
		from := n * inARow
		for i := from; i < min(from+inARow, len(b.draws)); i++ {
			x.w = b.draws[i]
			b.beer(&cells[i], &x.w, &b.honeys[i], &x.Beer)
			e.beers[i] = x.Beer
			x.again = i > from && sameCourse(&e.draws[i], &e.draws[i-1])
			if far != unfollowed && !x.again {
				in := e.fixed[i] // with what the course asks for put in
				b.pace(&in, &e.draws[i])
				b.course(&in, x, far, &e.windows[i])
			}
			if visit != nil {
				visit(i, x)
			}
		}
	})
}
