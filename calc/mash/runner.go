package mash

import (
	"skep/calc/ode"
	"skep/calc/sugar"
)

// The unknowns, in the order of the state: starch and what becomes of it as
// shares of all starch (dry, so that they sum to 1), the enzymes as shares of
// their amount in an all-malt mash, then the raw starch of each class.
const (
	iGelled = iota // gelatinised, not yet cut
	iOpen          // dextrin open to beta-amylase
	iLimit         // limit dextrin
	iGlucose
	iMaltose
	iMaltotriose
	iAlpha
	iBeta
	iLimitase // limit dextrinase
	iRaw      // the first class of raw starch
)

// Tolerances: relative to each state, and absolute as a share of the starch,
// a thousandth of it. What the ordinary one attains is measured in the tests.
const (
	relTol            = 1e-5
	tightest, loosest = 1e-12, 1e-2
	absPerRel         = 1e-3
	maxSteps          = 20000
)

// runner integrates mashes of one number of starch classes; its memory is
// reused.
type runner struct {
	k       *Kinetics
	solver  *ode.Solver
	f       ode.System
	opt     ode.Options
	y       []float64
	classes []starch
	gels    []float64 // rate of each class, of the leg when it is level
	r       rates
	leg     leg
	level   bool    // the leg's temperature does not change
	thickC  float64 // shift of gelatinisation by thickness
	molL    float64 // mol/L of maltose per share of starch
}

func newRunner(k *Kinetics, classes int, tolerance float64) *runner {
	n := iRaw + classes
	r := &runner{k: k, solver: ode.New(n), y: make([]float64, n), gels: make([]float64, classes),
		opt: ode.Options{RelTol: tolerance, AbsTol: tolerance * absPerRel, MaxSteps: maxSteps}}
	r.f = r.derivatives
	return r
}

// begin puts the grist into liquor.
func (r *runner) begin(g *grist, liquorLPerKg float64) {
	r.classes = g.classes
	r.thickC = r.k.GelThickC * (1/liquorLPerKg - 1/refLiquor)
	r.molL = 0
	if g.massKg > 0 {
		r.molL = g.starchKg / g.massKg / (liquorLPerKg + dissolvedL) * gainMaltose / maltoseMol
	}
	clear(r.y)
	r.y[iAlpha], r.y[iBeta], r.y[iLimitase] = g.enzymes, g.enzymes, g.enzymes
	for i, c := range g.classes {
		r.y[iRaw+i] = c.share
	}
}

// enter sets the rates for a leg.
func (r *runner) enter(l leg) {
	r.leg, r.level = l, l.fromC == l.toC
	if r.level {
		r.setTemperature(l.toC)
	}
}

func (r *runner) setTemperature(tC float64) {
	r.r = r.k.at(tC)
	for i, c := range r.classes {
		r.gels[i] = r.k.gel(tC, c.shiftC+r.thickC)
	}
}

func (r *runner) derivatives(t float64, y, d []float64) {
	if !r.level {
		r.setTemperature(r.leg.temperature(t))
	}
	k, q := r.k, &r.r
	var gelling float64
	for i, g := range r.gels {
		v := g * y[iRaw+i]
		d[iRaw+i] = -v
		gelling += v
	}
	cut := q.alpha * y[iAlpha] * y[iGelled]
	beta := q.beta * y[iBeta] * y[iOpen]
	trimOpen := q.trim * y[iAlpha] * y[iOpen]
	trimLimit := q.trim * y[iAlpha] * y[iLimit]
	trim := trimOpen + trimLimit
	debranch := q.limit * y[iLimitase] * y[iLimit]
	open := 1 - k.YieldGlucose - k.YieldMaltose - k.YieldMaltotriose - k.YieldLimit

	d[iGelled] = gelling - cut
	d[iOpen] = open*cut - beta - trimOpen + debranch
	d[iLimit] = k.YieldLimit*cut - trimLimit - debranch
	d[iGlucose] = k.YieldGlucose*cut + k.TrimGlucose*trim
	d[iMaltose] = k.YieldMaltose*cut + (1-k.BetaMaltotriose)*beta + k.TrimMaltose*trim
	d[iMaltotriose] = k.YieldMaltotriose*cut + k.BetaMaltotriose*beta + k.TrimMaltotriose*trim
	d[iAlpha] = -q.alphaLoss * y[iAlpha]
	d[iBeta] = -q.betaLoss * y[iBeta] * k.unguarded(r.molL*y[iMaltose])
	d[iLimitase] = -q.limitLoss * y[iLimitase]
}

// extract is what is dissolved, kg by kind.
func extract(g *grist, y []float64) sugar.Spectrum {
	s := g.ready
	s.Glucose += g.starchKg * gainGlucose * y[iGlucose]
	s.Maltose += g.starchKg * gainMaltose * y[iMaltose]
	s.Maltotriose += g.starchKg * gainMaltotriose * y[iMaltotriose]
	s.Dextrin += g.starchKg * gainDextrin * (y[iOpen] + y[iLimit])
	return s
}
