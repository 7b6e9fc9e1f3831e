package mash

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/sugar"
)

// Input is a mash.
type Input struct {
	Grain        []Grain
	Rests        []Rest
	LiquorLPerKg float64 // 1 to 20; 0 is 3
	HeatKPerMin  float64 // between rests, 0.01 to 100; 0 is 1
	PH           float64 // of the cooled wort, 3 to 9; 0: not known, taken as the best ([Acidity])

	// Tolerance is the integrator's, relative for each step, 1e-12 to 1e-2; 0
	// is 1e-5, good to a millionth of the starch (tested).
	Tolerance float64
}

// Result is what a mash gives.
type Result struct {
	Wort       sugar.Spectrum // shares of extract, sums to 1
	Conversion float64        // extract over that of a well-made mash at 66 °C
	ExtractKg  float64        // of the grist given, all of it washed out
	// Enzymes left, as shares of what the malt brought.
	AlphaLeft, BetaLeft, LimitDextrinaseLeft float64
	StarchLeft                               float64 // share of the starch not turned into extract
	Minutes                                  float64 // ramps included
	Warnings                                 []message.Message
}

// LimitAttenuationPct is the apparent attenuation, %, of a strain that takes
// every sugar and no dextrin, for a wort in any unit, at 12 °P (package alcohol:
// the mass balance).
func LimitAttenuationPct(s sugar.Spectrum) float64 {
	t := s.Total()
	if !(t > 0) {
		return 0
	}
	return alcohol.ApparentFromFermented(alcohol.ReferencePlato, s.Sugars()/t)
}

// Point is a mash on its way.
type Point struct {
	Minute       float64
	TemperatureC float64
	Result
}

// Run carries the mash to its end. It refuses what is outside the ranges of
// [Input], [Grain] and [Rest] by name, value and range, and answers everything
// within them, with warnings where a brewer would not go.
func Run(in Input) (Result, error) { return Committed().Run(in) }

// Course is the mash every so many minutes (0.01 to 1440), its end included.
func Course(in Input, everyMin float64) ([]Point, error) {
	if !(everyMin >= 0.01 && everyMin <= longestRestMin) {
		return nil, message.Fault("the mash is shown every %g min: outside 0.01 to %g", everyMin, longestRestMin)
	}
	return Committed().course(in, everyMin)
}

// Run is a mash with other constants than the committed ones.
func (k Kinetics) Run(in Input) (Result, error) {
	p, err := k.prepare(in)
	if err != nil {
		return Result{}, err
	}
	if err := p.run(nil); err != nil {
		return Result{}, err
	}
	res := p.result()
	res.Warnings = p.warnings(res)
	return res, nil
}

// prepared is a mash ready to run; it can be run again after changing a leg.
type prepared struct {
	g      grist
	legs   []leg
	liquor float64
	ph     float64
	r      *runner
}

func (k Kinetics) prepare(in Input) (*prepared, error) {
	if in.LiquorLPerKg == 0 {
		in.LiquorLPerKg = refLiquor
	}
	if !(in.LiquorLPerKg >= liquorLow && in.LiquorLPerKg <= liquorHigh) {
		return nil, message.NewError("{key} = {value} is outside {low} to {high}", "liquor_l_per_kg", in.LiquorLPerKg, liquorLow, liquorHigh)
	}
	if in.Tolerance == 0 {
		in.Tolerance = relTol
	}
	if !(in.Tolerance >= tightest && in.Tolerance <= loosest) {
		return nil, message.Fault("tolerance = %g is outside %g to %g", in.Tolerance, tightest, loosest)
	}
	if in.PH != 0 && !(in.PH >= lowPH && in.PH <= highPH) {
		return nil, message.NewError("{key} = {value} is outside {low} to {high}", "pH", in.PH, lowPH, highPH)
	}
	g, err := newGrist(&k, in.Grain)
	if err != nil {
		return nil, err
	}
	legs, err := schedule(in.Rests, in.HeatKPerMin)
	if err != nil {
		return nil, err
	}
	return &prepared{g: g, legs: legs, liquor: in.LiquorLPerKg, ph: in.PH, r: newRunner(&k, len(g.classes), in.Tolerance)}, nil
}

// run integrates leg by leg; visit, if any, is called after every step with
// the runner's solver standing there.
func (p *prepared) run(visit func(l leg)) error {
	p.r.begin(&p.g, p.liquor)
	return p.legsOnly(visit)
}

// legsOnly is run from the state where the runner stands.
func (p *prepared) legsOnly(visit func(l leg)) error {
	for _, l := range p.legs {
		if l.toMin <= l.fromMin {
			continue
		}
		p.r.enter(l)
		s := p.r.solver
		if err := s.Start(p.r.f, l.fromMin, l.toMin, p.r.y, p.r.opt); err != nil {
			return message.Fault("the mash cannot be computed: %w", err)
		}
		for !s.Done() {
			if err := s.Step(); err != nil {
				return message.Fault("the mash cannot be computed: %w", err)
			}
			if visit != nil {
				visit(l)
			}
		}
		copy(p.r.y, s.Y())
	}
	return nil
}

func (p *prepared) result() Result {
	end := 0.0
	if n := len(p.legs); n > 0 {
		end = p.legs[n-1].toMin
	}
	return p.resultOf(p.r.y, end)
}

func (p *prepared) resultOf(y []float64, minute float64) Result {
	e := extract(&p.g, y)
	e = noneNegative(e)
	total := e.Total()
	wort, conversion := soured(e.Times(1/total), total/p.g.potentialKg, p.ph)
	res := Result{
		Wort:       wort,
		Conversion: conversion,
		ExtractKg:  conversion * p.g.potentialKg,
		Minutes:    minute,
	}
	if p.g.enzymes > 0 {
		res.AlphaLeft = share(y[iAlpha] / p.g.enzymes)
		res.LimitDextrinaseLeft = share(y[iLimitase] / p.g.enzymes)
		res.BetaLeft = share(y[iBeta] / p.g.enzymes)
	}
	if p.g.starchKg > 0 {
		left := y[iGelled]
		for i := range p.g.classes {
			left += y[iRaw+i]
		}
		res.StarchLeft = share(left)
	}
	return res
}

// share holds a share between 0 and 1: the integrator may leave -1e-12.
func share(x float64) float64 { return math.Max(0, math.Min(1, x)) }

func noneNegative(s sugar.Spectrum) sugar.Spectrum {
	s.Glucose, s.Maltose = math.Max(0, s.Glucose), math.Max(0, s.Maltose)
	s.Maltotriose, s.Dextrin = math.Max(0, s.Maltotriose), math.Max(0, s.Dextrin)
	return s
}

func (k Kinetics) course(in Input, every float64) ([]Point, error) {
	p, err := k.prepare(in)
	if err != nil {
		return nil, err
	}
	end := p.legs[len(p.legs)-1].toMin
	points := make([]Point, 0, int(end/every)+2)
	p.r.begin(&p.g, p.liquor)
	points = append(points, Point{0, p.legs[0].fromC, p.resultOf(p.r.y, 0)})
	y := make([]float64, len(p.r.y))
	next := every
	err = p.run(func(l leg) {
		s := p.r.solver
		for ; next <= s.T() && next < end; next = every * float64(len(points)) {
			s.At(next, y)
			points = append(points, Point{next, l.temperature(next), p.resultOf(y, next)})
		}
	})
	if err != nil {
		return nil, err
	}
	if end > 0 {
		points = append(points, Point{end, p.legs[len(p.legs)-1].toC, p.result()})
	}
	return points, nil
}

// warnings say where a brewer would not go.
func (p *prepared) warnings(res Result) []message.Message {
	var w []message.Message
	warn := func(m message.Message) { w = append(w, m) }
	whole := func(share float64) quantity.Quantity { return quantity.Of(quantity.Percent, math.Round(100*share)) }
	celsius := func(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
	if p.g.starchKg > 0 && p.g.enzymes == 0 {
		warn(message.New("no base malt: nothing in the mash converts the raw grain's starch"))
	} else if p.g.enzymes > 0 && p.g.enzymes < 0.3 {
		warn(message.New("base malt brings only {share} of the starch: its enzymes may not reach for the rest", whole(p.g.enzymes)))
	}
	if res.Minutes == 0 {
		warn(message.New("the mash lasts 0 minutes: only what dissolves at once is counted"))
	}
	hottest := math.Inf(-1)
	for _, l := range p.legs {
		if l.toMin > l.fromMin || res.Minutes == 0 {
			hottest = math.Max(hottest, l.toC)
		}
	}
	first := p.legs[0].toC
	if p.g.starchKg > 0 && hottest < coldestMashC {
		warn(message.New("no rest is hotter than {hottest}: below {least} malt starch hardly gelatinises", celsius(hottest), celsius(coldestMashC)))
	}
	if p.g.starchKg > 0 && first > hottestMash {
		warn(message.New("the first rest is at {temperature}: above {most} beta-amylase is lost before it has worked", celsius(first), celsius(hottestMash)))
	}
	if res.Conversion < 0.9 && p.g.enzymes > 0 {
		warn(message.New("the mash gives only {share} of the extract of a well-made one", whole(res.Conversion)))
	}
	return w
}
