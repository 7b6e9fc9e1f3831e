package follow

import (
	"skep/calc"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/measured"
	"skep/calc/water"
)

// model is a design with what was measured, ready for draws: package calc's
// brew, and what readings of it need.
type model struct {
	brew     *calc.Brew
	preBoilL float64 // at 20 °C, as a gravity is: measured hot, or the plan's
	honeyed  bool    // any honey at all
	work     *workspaces
}

// newModel makes a conditioned design ready as the engine is set, and sets it so
// that honey that is only planned goes in after now.
func newModel(e *calc.Engine, c *measured.Conditioned, nowHours float64) (*model, error) {
	m := &model{work: new(workspaces)}
	if err := m.again(e, c, nowHours); err != nil {
		return nil, err
	}
	m.preBoilL = water.CoolL(m.brew.Plan().PreBoil, m.brew.Plan().BoilingPointC)
	for _, h := range c.Design.Honey {
		m.honeyed = m.honeyed || h.MassKg > 0
	}
	return m, nil
}

// again makes the brew anew where something that was measured is taken otherwise.
func (m *model) again(e *calc.Engine, c *measured.Conditioned, nowHours float64) (err error) {
	draws, _ := e.Measured()
	if err := e.SetMeasured(draws, c.Logged(nowHours)); err != nil {
		return err
	}
	m.brew, err = e.Brew(c.Design, 0)
	return err
}

// evaluation is one draw: its beer, its course, and what each observation should
// have shown. It is a workspace.
type evaluation struct {
	calc.Draw
	x []float64
}

// run follows a draw to its end.
func (m *model) run(t *theta, l *evaluation) {
	row := t.row()
	in := m.brew.Inputs(&row)
	m.brew.Ferment(&in, &l.Draw)
}

// runUntilNow is run without the times, and without honey that is still to come.
func (m *model) runUntilNow(t *theta, l *evaluation) {
	row := t.row()
	in := m.brew.Inputs(&row)
	m.brew.FermentUntilNow(&in, &l.Draw)
}

// original is what the beer of an hour is from: the measured original gravity
// if there is one, and all honey that is in, by a draw of the plan.
func (m *model) original(t *measured.Timeline, plan *evaluation) measured.OriginalPlato {
	oe := plan.OriginalPlato
	for _, p := range t.Used(measured.OriginalGravity) {
		oe = density.PlatoFromSG(p.Value)
	}
	var doses []calc.Dose
	m.brew.Doses(&plan.Draw, func(d calc.Dose) { doses = append(doses, d) })
	atPitching := m.honeyed && len(doses) < m.honeys()
	extract, mass := oe/100*plan.PitchedKg, plan.PitchedKg
	less := plan.Wort.Total() - extract // than the plan has
	return func(hours float64) (float64, bool) {
		e, kg, honey := extract, mass, atPitching
		for _, d := range doses {
			if d.Logged && d.Hours < hours {
				e, kg, honey = d.ExtractKg-less, d.AllKg, true
			}
		}
		return 100 * e / kg, honey
	}
}

// honeys is how many honeys the design has.
func (m *model) honeys() int {
	n := 0
	for _, h := range m.brew.Design().Honey {
		if h.MassKg > 0 {
			n++
		}
	}
	return n
}

// aboveOriginalSG: a gravity above all extract that can be in the beer, by so
// much, is absurd.
const aboveOriginalSG = 0.005

// mostSG is the gravity of all extract that the laboratory finds in the grist,
// and all honey: no beer of this design can show more, but for the
// instrument.
func (m *model) mostSG(plan *evaluation) float64 {
	p := m.brew.Plan()
	extract := plan.AllExtractKg - plan.GrainKg + p.LaboratoryKg*p.KeptShare
	return density.SGFromPlato(min(100*extract/plan.AllKg, 40)) + aboveOriginalSG
}

// startedHours is when nine in ten fermentations have full activity: one and a
// half times the long lag.
func (m *model) startedHours() float64 {
	row := [doubt.Inputs]float64{doubt.Lag: doubt.Z90}
	in := m.brew.Inputs(&row)
	return 1.5 * m.brew.LagHours(&in)
}
