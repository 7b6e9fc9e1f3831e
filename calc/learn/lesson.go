package learn

import (
	"cmp"
	"math"
	"slices"
	"time"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Batch is one finished batch of the ledger.
type Batch struct {
	ID       string // its file: unique
	Title    string
	Measured Measured
	LeaveOut bool // the person's own switch
}

// The lessons, by their key; those of a strain are followed by "/" and its name.
const (
	Efficiency  = "kit.mash_efficiency_pct"
	BoilOff     = "kit.steam_l_per_h"
	Thermometer = "kit.rest_offset_c"
	Attenuation = "yeast.attenuation"
	Speed       = "yeast.speed"
	Dryness     = "taste.dryness"
	Body        = "taste.body"
	GlassTest   = "taste.glass_test" // package glasstest's, not of this one; its switch stands beside the others
)

// Normal is a mean and one sd.
type Normal struct{ Mean, SD float64 }

// Evidence is what one batch said of a lesson.
type Evidence struct {
	ID, Title string
	At        time.Time
	Value     float64 // as measured, in the lesson's unit
	SD        float64 // of its measurement
	Residual  float64 // Value less the posterior mean
	Weight    float64 // of all that was measured, 0 to 1
}

// Lesson is one thing learnt.
type Lesson struct {
	Key    string          // the switch
	Name   message.Message // as a sentence begins
	Strain string
	Kind   quantity.Kind // of its numbers; a Factor is learnt as its logarithm

	Prior     Normal // without any batch
	Posterior Normal
	PriorSD   float64 // of the next batch, without lessons: kit and batch together
	NextSD    float64 // of the next batch
	BatchSD   float64 // batch from batch, as learnt
	Kept      float64 // share of the prior mean still in the posterior mean, 1 to 0
	Evidence  []Evidence
	Borrowed  int // batches of other strains that were heard
}

// Lessons are all of them, in order: kit, strains, palate.
type Lessons struct {
	Lessons []Lesson
	Batches int // that were heard

	kit             Kit // whose the kit's lessons are
	strains, speeds map[string]*Lesson
	attenuation     posterior
	speed           posterior
	heard           [2]int // batches with any word on attenuation, on speed
}

// Learn hears the batches. The reference gives the kit's and the strains'
// values that the priors are centred on: the design to be predicted as it
// stands in its file, not as a lever is being dragged. Strains that it does not
// name are centred on the range of their latest batch. The order of the batches
// does not matter.
func Learn(batches []Batch, reference design.Design) Lessons {
	heard := make([]Batch, 0, len(batches))
	for _, b := range batches {
		if !b.LeaveOut {
			heard = append(heard, b)
		}
	}
	slices.SortFunc(heard, func(a, b Batch) int {
		return cmp.Or(a.Measured.At.Compare(b.Measured.At), cmp.Compare(a.ID, b.ID))
	})
	l := Lessons{Batches: len(heard), strains: map[string]*Lesson{}, speeds: map[string]*Lesson{}}
	kit := reference.Kit
	l.kit = kitOf(kit)
	// What another kit has taught of itself says nothing of this one.
	here := slices.DeleteFunc(slices.Clone(heard), func(b Batch) bool { return !l.kit.Is(b.Measured.Kit) })
	l.one(here, Lesson{Key: Efficiency, Name: message.New("Mash efficiency"), Kind: quantity.Percent},
		hierarchy{m0: kit.MashEfficiencyPct, tm: kitEfficiencySD, sigma: batchEfficiencySD}, func(m *Measured) Value { return m.EfficiencyPct })
	l.one(here, Lesson{Key: BoilOff, Name: message.New("Boil-off"), Kind: quantity.LitresPerHour},
		hierarchy{m0: kit.SteamLPerH, tm: kitSteamSD, sigma: batchSteamSD}, func(m *Measured) Value { return m.SteamLPerH })
	l.thermometer(here, kit.RestErrorC)
	l.attenuations(heard, reference)
	l.times(heard, reference)
	l.one(heard, Lesson{Key: Dryness, Name: message.New("Dryness as you taste it"), Kind: quantity.IndexPoints},
		hierarchy{tm: palateSD, sigma: tastingSD}, func(m *Measured) Value { return m.DrynessOffset })
	l.one(heard, Lesson{Key: Body, Name: message.New("Body as you taste it"), Kind: quantity.IndexPoints},
		hierarchy{tm: palateSD, sigma: tastingSD}, func(m *Measured) Value { return m.BodyOffset })
	return l
}

// one learns a lesson of the kit or the palate.
func (l *Lessons) one(heard []Batch, lesson Lesson, h hierarchy, of func(*Measured) Value) {
	h.tu, h.scales = []float64{0}, usualScales
	var data []datum
	for i := range heard {
		if v := of(&heard[i].Measured); v.Known {
			data = append(data, datum{y: v.Mean, s2: v.SD * v.SD, k: 1})
			lesson.Evidence = append(lesson.Evidence, evidenceOf(&heard[i], v))
		}
	}
	lesson.Prior = Normal{h.m0, h.tm}
	lesson.PriorSD = math.Hypot(h.tm, h.sigma)
	p := h.learn(data)
	lesson.finish(p.kit, p.batch, h.sigma, data)
	l.Lessons = append(l.Lessons, lesson)
}

func evidenceOf(b *Batch, v Value) Evidence {
	return Evidence{ID: b.ID, Title: b.Title, At: b.Measured.At, Value: v.Mean, SD: v.SD}
}

// finish fills in what the posterior says. Without any word from a batch the
// prior stands as the engine draws it.
func (l *Lesson) finish(m moments, batchSD, priorBatchSD float64, data []datum) {
	l.Posterior, l.BatchSD, l.NextSD, l.Kept = l.Prior, priorBatchSD, l.PriorSD, 1
	if len(data) == 0 && l.Borrowed == 0 {
		return
	}
	l.Posterior = Normal{m.mean, m.sd()}
	l.BatchSD = batchSD
	l.NextSD = math.Hypot(m.sd(), batchSD)
	total, mean := 0.0, 0.0
	for i := range data {
		w := 1 / data[i].variance(batchSD)
		total += w
		mean += w * data[i].y
	}
	for i := range l.Evidence {
		l.Evidence[i].Residual = l.Evidence[i].Value - m.mean
		l.Evidence[i].Weight = 1 / data[i].variance(batchSD) / total
	}
	if total > 0 {
		// Shrinkage by variances: exact for one group with known variances.
		l.Kept = 1 / (1 + l.Prior.SD*l.Prior.SD*total)
	}
}

// attenuations learns each strain's; see prior.go for what is whose.
func (l *Lessons) attenuations(heard []Batch, ref design.Design) {
	names, ranges := strainsOf(heard, ref)
	h := hierarchy{tm: standingMaltSD, sigma: batchMaltSD, scales: usualScales}
	index := map[string]int{}
	for i, name := range names {
		index[group(name)] = i
		h.tu = append(h.tu, strainSD(ranges[i][0], ranges[i][1]))
	}
	data, evidence := gather(heard, index, func(m *Measured, g int) (datum, Value) {
		v := m.StrainPct
		return datum{y: v.Mean - (ranges[g][0]+ranges[g][1])/2, k: m.MaltRatio}, v
	})
	l.attenuation = h.learn(data)
	l.heard[0] = len(data)
	for g, name := range names {
		mid := (ranges[g][0] + ranges[g][1]) / 2
		prior := math.Hypot(h.tm, h.tu[g])
		lesson := Lesson{Key: Attenuation + "/" + name, Name: attenuationOf(name), Strain: name, Kind: quantity.Percent,
			Prior: Normal{mid, prior}, PriorSD: math.Hypot(prior, h.sigma), Evidence: evidence[g]}
		m := l.attenuation.group[g]
		l.strain(lesson, moments{mid + m.mean, m.variance}, l.attenuation.batch, h.sigma, data, g, l.strains)
	}
}

// times learns each strain's speed.
func (l *Lessons) times(heard []Batch, ref design.Design) {
	names, _ := strainsOf(heard, ref)
	h := hierarchy{tm: handsTimeSD, sigma: batchTimeSD, scales: usualScales}
	index := map[string]int{}
	for i, name := range names {
		index[group(name)] = i
		h.tu = append(h.tu, strainTimeSD)
	}
	data, evidence := gather(heard, index, func(m *Measured, _ int) (datum, Value) {
		return datum{y: m.LogTime.Mean, k: 1}, m.LogTime
	})
	l.speed = h.learn(data)
	l.heard[1] = len(data)
	for g, name := range names {
		prior := math.Hypot(h.tm, h.tu[g])
		lesson := Lesson{Key: Speed + "/" + name, Name: timeOf(name), Strain: name, Kind: quantity.Factor,
			Prior: Normal{0, prior}, PriorSD: math.Hypot(prior, h.sigma), Evidence: evidence[g]}
		l.strain(lesson, l.speed.group[g], l.speed.batch, h.sigma, data, g, l.speeds)
	}
}

// strain finishes a strain's lesson with its own part of the data.
func (l *Lessons) strain(lesson Lesson, m moments, batch, priorBatch float64, data []datum, g int, into map[string]*Lesson) {
	var own []datum
	for _, x := range data {
		if x.group == g {
			own = append(own, x)
		}
	}
	lesson.Borrowed = len(data) - len(own)
	lesson.finish(m, batch, priorBatch, own)
	into[group(lesson.Strain)] = &lesson
	l.Lessons = append(l.Lessons, lesson)
}

// gather puts the batches' words together by strain.
func gather(heard []Batch, index map[string]int, of func(*Measured, int) (datum, Value)) ([]datum, [][]Evidence) {
	var data []datum
	evidence := make([][]Evidence, len(index))
	for i := range heard {
		g := index[group(heard[i].Measured.Strain)]
		x, v := of(&heard[i].Measured, g)
		if !v.Known {
			continue
		}
		x.group, x.s2 = g, v.SD*v.SD
		data = append(data, x)
		evidence[g] = append(evidence[g], evidenceOf(&heard[i], v))
	}
	return data, evidence
}

// strainSD is the spread that a strain's range stands for.
func strainSD(lowPct, highPct float64) float64 {
	return max((highPct-lowPct)/(2*doubt.Z90), narrowestStrainSD)
}

// strainsOf are the strains with their ranges: the reference's first, then
// those of the batches in order of their first batch.
func strainsOf(heard []Batch, ref design.Design) (names []string, ranges [][2]float64) {
	place := map[string]int{}
	for _, y := range ref.Yeast {
		if _, ok := place[group(y.Name)]; !ok {
			place[group(y.Name)] = len(names)
			names = append(names, y.Name)
			ranges = append(ranges, [2]float64{y.AttenuationLowPct, y.AttenuationHighPct})
		}
	}
	given := len(names)
	for i := range heard {
		m := &heard[i].Measured
		at, ok := place[group(m.Strain)]
		if !ok {
			at = len(names)
			place[group(m.Strain)] = at
			names = append(names, m.Strain)
			ranges = append(ranges, [2]float64{})
		}
		if at >= given {
			ranges[at] = [2]float64{m.StrainLow, m.StrainHigh} // the latest stays
		}
	}
	return names, ranges
}

func attenuationOf(strain string) message.Message {
	return message.New("Attenuation of {strain}", strainOrUnnamed(strain))
}

func timeOf(strain string) message.Message {
	return message.New("Time to the height of {strain}", strainOrUnnamed(strain))
}

func strainOrUnnamed(strain string) any {
	if group(strain) == "" {
		return message.New("the strain without a name")
	}
	return strain
}

// Found is the lesson in a sentence that stands under its name.
func (l *Lesson) Found() message.Message {
	n := len(l.Evidence)
	if n == 0 && l.Borrowed == 0 {
		return message.New("no batch says anything of it yet, so the usual doubt stands")
	}
	from := message.New("from {count} batches", quantity.Of(quantity.Count, float64(n)))
	switch {
	case n == 1:
		from = message.New("from one batch")
	case n == 0:
		from = message.New("from batches of other strains only")
	}
	if l.Kind == quantity.Factor {
		wide := func(sd float64) quantity.Quantity { return quantity.Of(quantity.Percent, math.Round(100*sd)) }
		return message.New("{factor} times the predicted, give or take {spread}, {from} (before any: {prior} ± {priorSpread})",
			quantity.Of(quantity.Factor, l.Factor()), wide(l.Posterior.SD), from, quantity.Of(quantity.Count, 1), wide(l.Prior.SD))
	}
	number := func(v float64) quantity.Quantity { return quantity.Of(l.Kind, v) }
	return message.New("{value} ± {spread}, {from} (before any: {prior} ± {priorSpread})", number(l.Posterior.Mean), number(l.Posterior.SD).Unitless(), from,
		number(l.Prior.Mean).Unitless(), number(l.Prior.SD).Unitless())
}

// Of is what a batch said, and how far that is off the lesson.
func (l *Lesson) Of(e Evidence) (value, off quantity.Quantity) {
	if l.Kind == quantity.Factor {
		return quantity.Of(quantity.Factor, math.Exp(e.Value)), quantity.Of(quantity.Percent, math.Round(100*math.Expm1(e.Residual)))
	}
	return quantity.Of(l.Kind, e.Value), quantity.Of(l.Kind, e.Residual)
}

// Factor is the posterior mean of a time as a factor; 1 of other lessons.
func (l *Lesson) Factor() float64 {
	if l.Kind != quantity.Factor {
		return 1
	}
	return math.Exp(l.Posterior.Mean)
}
