package follow

import (
	"cmp"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/taste"
)

// Bands is what is thought of the beer, 10 to 90 %.
type Bands struct {
	OriginalGravitySG          calc.Band
	EffectiveOriginalGravitySG calc.Band
	FinalGravitySG             calc.Band
	StrengthPct                calc.Band
	ApparentAttenuationPct     calc.Band
	RealAttenuationPct         calc.Band
	SweetnessGL                calc.Band
	ResidualSugarGL            calc.Band
	DextrinGL                  calc.Band
	RealExtractGL              calc.Band
	Dryness                    calc.Band
	Body                       calc.Band
	HeightHours                calc.Band // after pitching
	WindowHours                [2]calc.Band
	FinishedHours              calc.Band

	// By the hour after pitching: 0, 1, 2 …
	Hours         []float64
	GravitySG     []calc.Band
	CO2RateGPerLH []calc.Band
}

// Into puts the bands in the place of a prediction's own.
func (b *Bands) Into(p calc.Prediction) calc.Prediction {
	p.OriginalGravitySG, p.EffectiveOriginalGravitySG, p.FinalGravitySG = b.OriginalGravitySG, b.EffectiveOriginalGravitySG, b.FinalGravitySG
	p.StrengthPct, p.ApparentAttenuationPct, p.RealAttenuationPct = b.StrengthPct, b.ApparentAttenuationPct, b.RealAttenuationPct
	p.SweetnessGL, p.ResidualSugarGL, p.DextrinGL, p.RealExtractGL = b.SweetnessGL, b.ResidualSugarGL, b.DextrinGL, b.RealExtractGL
	p.Dryness, p.Body = b.Dryness, b.Body
	p.DrynessWord, p.BodyWord = taste.DrynessWord(b.Dryness.Mid), taste.BodyWord(b.Body.Mid)
	p.HeightHours, p.HoneyWindowHours, p.FinishedHours = b.HeightHours, b.WindowHours, b.FinishedHours
	return p
}

// summary is one draw's beer and times.
type summary struct {
	og, effective, fg, abv, aa, rdf, sweetness, sugar, dextrin, re, dryness, body float64
	milestones
}

func (l *look) summary() summary {
	b := &l.beer
	return summary{
		og: density.QuickSG(b.ogPlato), effective: density.QuickSG(b.effectivePlato), fg: b.fgSG, abv: b.abvPct,
		aa: b.aaPct, rdf: b.rdfPct, sweetness: b.sweetnessGL, sugar: b.residue.Sugars(), dextrin: b.residue.Dextrin,
		re: b.reGL, dryness: b.dryness, body: b.body, milestones: l.course.times,
	}
}

// weighted is the 10th, 50th and 90th percentile of weighted values: half of a
// value's weight lies on either side of it, linear between.
func weighted(n int, value, weight func(i int) float64) calc.Band {
	type pair struct{ v, w float64 }
	x := make([]pair, 0, n)
	for i := range n {
		if w := weight(i); w > 0 {
			x = append(x, pair{value(i), w})
		}
	}
	slices.SortFunc(x, func(a, b pair) int { return cmp.Compare(a.v, b.v) })
	at := func(p float64) float64 {
		before := 0.0
		for i := range x {
			here := before + x[i].w/2
			if here >= p {
				if i == 0 {
					return x[0].v
				}
				last := before - x[i-1].w/2
				return x[i-1].v + (x[i].v-x[i-1].v)*(p-last)/(here-last)
			}
			before += x[i].w
		}
		return x[len(x)-1].v
	}
	return calc.Band{Low: at(0.1), Mid: at(0.5), High: at(0.9)}
}

// band is one quantity of the sample.
func (s *sample) band(of func(b *summary) float64) calc.Band {
	return weighted(len(s.beers), func(i int) float64 { return of(&s.beers[i]) }, func(i int) float64 { return s.weights[i] })
}

// share is the weight of the draws that are so.
func (s *sample) share(is func(b *summary) bool) float64 {
	sum := 0.0
	for i := range s.beers {
		if is(&s.beers[i]) {
			sum += s.weights[i]
		}
	}
	return min(sum, 1)
}

// bands are those of a sample, dryness and body as this palate perceives them.
func (m *model) bands(s *sample) Bands {
	return Bands{
		OriginalGravitySG:          s.band(func(b *summary) float64 { return b.og }),
		EffectiveOriginalGravitySG: s.band(func(b *summary) float64 { return b.effective }),
		FinalGravitySG:             s.band(func(b *summary) float64 { return b.fg }),
		StrengthPct:                s.band(func(b *summary) float64 { return b.abv }),
		ApparentAttenuationPct:     s.band(func(b *summary) float64 { return b.aa }),
		RealAttenuationPct:         s.band(func(b *summary) float64 { return b.rdf }),
		SweetnessGL:                s.band(func(b *summary) float64 { return b.sweetness }),
		ResidualSugarGL:            s.band(func(b *summary) float64 { return b.sugar }),
		DextrinGL:                  s.band(func(b *summary) float64 { return b.dextrin }),
		RealExtractGL:              s.band(func(b *summary) float64 { return b.re }),
		Dryness:                    m.priors.Dryness.Band(s.band(func(b *summary) float64 { return b.dryness })),
		Body:                       m.priors.Body.Band(s.band(func(b *summary) float64 { return b.body })),
		HeightHours:                s.band(func(b *summary) float64 { return b.height }),
		WindowHours: [2]calc.Band{
			s.band(func(b *summary) float64 { return b.opens }), s.band(func(b *summary) float64 { return b.closes }),
		},
		FinishedHours: s.band(func(b *summary) float64 { return b.finished }),
	}
}

// evenCount is how many draws of equal weight stand for the posterior where
// weights can't be carried: the bands by the hour, and the engine.
const evenCount = calc.Draws

// even is the posterior as draws of equal weight: systematic resampling of the
// draws in order of final gravity, so that its spread is kept.
func (s *sample) even() []int {
	order := make([]int, len(s.draws))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.beers[a].fg, s.beers[b].fg) })
	out := make([]int, 0, evenCount)
	sum, k := 0.0, 0
	for j := range evenCount {
		want := (float64(j) + 0.5) / evenCount
		for k < len(order)-1 && sum+s.weights[order[k]] < want {
			sum += s.weights[order[k]]
			k++
		}
		out = append(out, order[k])
	}
	return out
}

// hourly fills in the bands by the hour from draws of equal weight, and notes
// what logged honey does in each, if logs is not nil.
func (m *model) hourly(draws []theta, hours int, b *Bands, logs *honeyRows) {
	n := len(draws)
	gravity, rate := make([]float64, n*(hours+1)), make([]float64, n*(hours+1))
	m.desk.both(n, func(i int, l *look) {
		m.run(&draws[i], &l.beer, &l.course)
		logs.note(i, l, m.nowHours)
		for h := range hours + 1 {
			gravity[h*n+i], rate[h*n+i] = l.course.gravity(float64(h))
		}
	})
	b.Hours = make([]float64, hours+1)
	b.GravitySG, b.CO2RateGPerLH = make([]calc.Band, hours+1), make([]calc.Band, hours+1)
	for h := range hours + 1 {
		b.Hours[h] = float64(h)
		b.GravitySG[h] = percentiles(gravity[h*n : (h+1)*n])
		b.CO2RateGPerLH[h] = percentiles(rate[h*n : (h+1)*n])
	}
}

func percentiles(x []float64) calc.Band {
	low, mid, high := doubt.Percentiles(x)
	return calc.Band{Low: low, Mid: mid, High: high}
}

// at is the band of gravity at an hour, linear between the full ones.
func (b *Bands) at(hours float64) calc.Band {
	if len(b.GravitySG) == 0 {
		return b.FinalGravitySG
	}
	h := min(max(hours, 0), float64(len(b.GravitySG)-1))
	i := min(int(h), max(len(b.GravitySG)-2, 0))
	if i+1 >= len(b.GravitySG) {
		return b.GravitySG[i]
	}
	u := h - math.Floor(h)
	if int(h) > i {
		u = 1
	}
	x, y := b.GravitySG[i], b.GravitySG[i+1]
	mix := func(p, q float64) float64 { return p + u*(q-p) }
	return calc.Band{Low: mix(x.Low, y.Low), Mid: mix(x.Mid, y.Mid), High: mix(x.High, y.High)}
}
