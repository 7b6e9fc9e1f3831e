package follow

import (
	"errors"
	"fmt"
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/honey"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/water"
)

// The figures that package calc keeps to itself; a test compares what comes of
// them with the engine.
const (
	moisturePoints = 1.0
	trimDays       = 21.0
)

// model is a design ready for draws.
type model struct {
	d      design.Design
	yeast  design.Yeast
	plan   water.Plan
	priors calc.Doubts // filled

	table, warmer *mash.Table // nil: no grain
	restC         float64
	reference     sugar.Spectrum

	honeyHours []float64 // by honey; NaN: as planned
	beerC      float64
	beerSD     float64
	changes    []change // of the beer's temperature on purpose, in order
	preBoilL   float64  // of a pre-boil gravity: measured, or the plan's
	desk       *desk    // workspaces; a model is for one caller at a time
	nowHours   float64  // planned honey that is not logged has not gone in by now
}

// change is a temperature set at some hour.
type change struct{ hour, temperatureC float64 }

// mashes keeps the mash of the last design: it is what is dear.
type mashes struct {
	key           string
	table, warmer *mash.Table
}

func newModel(c *Conditioned, priors calc.Doubts, keep *mashes) (*model, error) {
	d := c.Design
	var wrong error
	for _, f := range d.Validate() {
		if f.Severity == design.Error {
			wrong = errors.Join(wrong, errors.New(f.Message))
		}
	}
	if wrong != nil {
		return nil, wrong
	}
	if len(d.Yeast) == 0 || len(d.Mash.Rest) == 0 {
		return nil, errors.New("the design needs a yeast and a mash rest to be followed")
	}
	in := mashInput(c, priors.RestShiftC)
	m := &model{
		d: d, yeast: d.Yeast[0], plan: calc.Liquor(d), priors: priors, restC: in.Rests[0].TemperatureC, reference: mash.Reference(),
		honeyHours: c.honeyHours, beerC: c.beerC, beerSD: c.beerSD, desk: new(desk),
	}
	m.preBoilL = m.plan.PreBoil
	if m.plan.LaboratoryKg > 0 {
		if err := keep.of(in, d.Kit.RestErrorC); err != nil {
			return nil, err
		}
		m.table, m.warmer = keep.table, keep.warmer
	}
	return m, nil
}

// mashInput is the design's mash; rests that nobody measured are so much warmer
// than set.
func mashInput(c *Conditioned, shiftC float64) mash.Input {
	in := calc.MashInput(c.Design, 0)
	for i := range in.Rests {
		if i >= len(c.restRead) || !c.restRead[i] {
			in.Rests[i].TemperatureC += shiftC
		}
	}
	return in
}

// of tabulates the mash over the first rest, as far as the thermometer's error
// reaches.
func (k *mashes) of(in mash.Input, errorC float64) error {
	reach := max(4*errorC, 1) + 1
	low, high := max(20, in.Rests[0].TemperatureC-reach), min(100, in.Rests[0].TemperatureC+reach)
	key := fmt.Sprint(in, low, high)
	if key == k.key {
		return nil
	}
	const step = 0.5
	table, err := mash.Tabulate(in, 0, low, high, step)
	if err != nil {
		return err
	}
	var warmer *mash.Table
	if len(in.Rests) > 1 {
		for i := range in.Rests {
			if i > 0 {
				in.Rests[i].TemperatureC++
			}
		}
		if warmer, err = mash.Tabulate(in, 0, low, high, step); err != nil {
			return err
		}
	}
	k.key, k.table, k.warmer = key, table, warmer
	return nil
}

// mashAt is the wort (shares of extract) and the conversion of a draw. How the
// other rests' error acts is taken as linear in it.
func (m *model) mashAt(errorC float64, d mash.Doubt) (sugar.Spectrum, float64) {
	s, conversion := m.table.At(m.restC+errorC, d)
	if m.warmer == nil {
		return s, conversion
	}
	s2, conversion2 := m.warmer.At(m.restC+errorC, d)
	mixed := s.Times(1 - errorC).Plus(s2.Times(errorC))
	for _, v := range []*float64{&mixed.Glucose, &mixed.Fructose, &mixed.Sucrose, &mixed.Maltose, &mixed.Maltotriose, &mixed.Dextrin, &mixed.Other} {
		*v = max(*v, 0)
	}
	return mixed.Times(1 / mixed.Total()), max(0, conversion+errorC*(conversion2-conversion))
}

// dose is honey that goes into the fermenter while it works.
type dose struct {
	place      int     // in the design
	hours      float64 // after pitching, or after the height
	fromHeight bool
	massKg     float64
	volumeL    float64
	kg         sugar.Spectrum
}

// honeys is one draw's honey.
type honeys struct {
	hot, pitched sugar.Spectrum // kg in the fermenter
	pitchedKg    float64        // with its water
	pitchedL     float64
	late         [8]dose
	lates        int
	rawCoolGPerL float64
}

func (m *model) honeyOf(z *[doubt.Inputs]float64, h *honeys) {
	*h = honeys{}
	raw := 0.0
	for i := range m.d.Honey {
		a := &m.d.Honey[i]
		moisture := min(max(a.MoisturePct+moisturePoints*z[doubt.HoneyMoisture], honey.MinMoisturePct), honey.MaxMoisturePct)
		fit := honey.FermentableShareMid + honey.FermentableShareSD*z[doubt.HoneySugars]
		kg := honey.Extract(a.MassKg, moisture, honey.Blossom, fit)
		switch a.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			h.hot = h.hot.Plus(kg.Times(m.plan.KeptShare))
			continue
		case design.MomentPitching:
			h.pitched = h.pitched.Plus(kg)
			h.pitchedKg += a.MassKg
			h.pitchedL += honey.VolumeL(a.MassKg, a.MoisturePct, 20)
		default:
			x := dose{place: i, hours: a.HoursAfterHeight, fromHeight: true, massKg: a.MassKg, volumeL: honey.VolumeL(a.MassKg, a.MoisturePct, 20), kg: kg}
			if i < len(m.honeyHours) && !math.IsNaN(m.honeyHours[i]) {
				x.hours, x.fromHeight = m.honeyHours[i], false
			}
			if h.lates == len(h.late) { // more than anybody adds: with the last
				y := &h.late[h.lates-1]
				y.massKg, y.volumeL, y.kg = y.massKg+x.massKg, y.volumeL+x.volumeL, y.kg.Plus(x.kg)
			} else {
				h.late[h.lates] = x
				h.lates++
			}
		}
		if a.Raw {
			raw += 1000 * a.MassKg
		}
	}
	h.rawCoolGPerL = raw / m.plan.FermenterL
}
