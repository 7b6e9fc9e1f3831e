package calc

import (
	"slices"

	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Landed is where a beer lands: the qualities of taste and the gravity.
type Landed struct {
	Dryness        float64 // 0 to 100
	Body           float64 // 0 to 100
	StrengthPct    float64 // % by volume
	FinalGravitySG float64
	HoneyCharacter float64 // 0 to 100; only where it is asked for: see [Lander.HoneyCharacter]
}

// Lander evaluates one design over its levers: what a plane of landing points
// and a search among thousands of settings need. It keeps the mash tables of
// every length of the chosen rest, and the draws of the engine, so that Land
// gives what [Engine.Predict] gives for the same design.
//
// A Lander is for one goroutine.
type Lander struct {
	rest, honey int // the chosen ones; honey is -1 where the design has none
	base        design.Design
	start       lever.Setting
	plan        water.Plan
	engine      Engine // its draws and its way to tabulate a mash
	tables      map[tableKey]*mashTables
	work        Brew
	quick       quickMid
	grainKg     []float64
	series      scratch
	course      Draw // of the honey's character
	character   quickCharacter
	rows        mashRows
	less        []Landed
	landed      landedOf // with the honey: what the draws of the work brew are of
	landedHoney []design.Honey
}

// landedOf is what draws hang on besides the engine, each [Brew.drawFrom] alike: a step
// of the rest leaves it alone.
type landedOf struct {
	crushCost, grainKg, kept, bears, trim, efficiencyPct, restErrorC, lowPct, highPct float64
}

// NewLander makes the levers of a design's own yeast ready, with one of its
// rests and one of its honeys chosen, counted from 0. A design without honey
// is no error: its honey lever does nothing.
func NewLander(e *Engine, d design.Design, rest, honey int) (*Lander, error) {
	if len(d.Yeast) == 0 {
		return nil, message.Fault("yeast.0 is not there: the design has none")
	}
	if rest < 0 || rest >= len(d.Mash.Rest) {
		return nil, message.Fault("mash.rest.%d is not there: the design has %d", rest, len(d.Mash.Rest))
	}
	if len(d.Honey) == 0 {
		honey = -1
	} else if honey < 0 || honey >= len(d.Honey) {
		return nil, message.Fault("honey.%d is not there: the design has %d", honey, len(d.Honey))
	}
	plan, err := recipe.Sound(d)
	if err != nil {
		return nil, err
	}
	l := &Lander{rest: rest, honey: honey, tables: map[tableKey]*mashTables{}, series: *newScratch(len(e.draws))}
	l.engine.draws, l.engine.fixed, l.engine.doubts, l.engine.logged, l.engine.middle = e.draws, e.fixed, e.doubts, e.logged, e.middle // read only
	l.set(d, &plan)
	return l, nil
}

// set takes a design over and works out what the levers leave alone.
func (l *Lander) set(d design.Design, plan *water.Plan) {
	d.Ghost = nil // the beer has nothing of it
	l.base = d.Clone()
	d = l.base
	l.start = lever.SettingOf(&d, l.rest, l.honey)
	l.plan = *plan
	work := d.Clone()
	l.work = Brew{draws: l.work.draws, honeys: l.work.honeys, d: work, yeast: work.Yeast[0], crushCost: recipe.Crush(d.Crush).EfficiencyPoints(), logged: &l.engine.logged, spread: l.engine.doubts.sd()}
	l.grainKg = l.grainKg[:0]
	for _, g := range d.Grain {
		l.grainKg = append(l.grainKg, g.MassKg)
	}
	l.quick = l.newQuick()
	l.character.known = false
}

// Start is the setting of the design as it is.
func (l *Lander) Start() lever.Setting { return l.start }

// HasHoney tells whether there is a honey to move.
func (l *Lander) HasHoney() bool { return l.honey >= 0 }

// HasGrain tells whether any extract comes from grain.
func (l *Lander) HasGrain() bool { return l.plan.LaboratoryKg > 0 }

// Draws is how many beers a [Lander.Land] draws.
func (l *Lander) Draws() int { return len(l.engine.draws) }

// Move takes another design over, and keeps the mash tables if only levers
// have moved. It is what a window calls while a lever is dragged.
func (l *Lander) Move(d design.Design) error {
	if len(d.Yeast) == 0 || l.rest >= len(d.Mash.Rest) || l.honey >= len(d.Honey) || (l.honey < 0) != (len(d.Honey) == 0) {
		return message.Fault("the design has not the rest, honey or yeast whose levers were made ready")
	}
	plan, err := recipe.Sound(d)
	if err != nil {
		return err
	}
	if !l.sameMash(d) {
		clear(l.tables)
	}
	l.set(d, &plan)
	return nil
}

// sameMash tells whether a design mashes as this one, the chosen rest aside.
func (l *Lander) sameMash(d design.Design) bool {
	a, b := l.base, d
	if a.Kit.RestErrorC != b.Kit.RestErrorC || a.Kit.HeaterW != b.Kit.HeaterW || a.Kit.VesselHeatKJPerK != b.Kit.VesselHeatKJPerK ||
		a.Mash.LiquorLPerKg != b.Mash.LiquorLPerKg || len(a.Mash.Rest) != len(b.Mash.Rest) ||
		!slices.Equal(a.Grain, b.Grain) {
		return false
	}
	for i := range a.Mash.Rest {
		if i != l.rest && a.Mash.Rest[i] != b.Mash.Rest[i] {
			return false
		}
	}
	// The table reaches further for a rest outside the levers' range.
	outside := func(t float64) bool { return t < lever.RestLowC || t > lever.RestHighC }
	return !outside(a.Mash.Rest[l.rest].TemperatureC) && !outside(b.Mash.Rest[l.rest].TemperatureC)
}

// tableKey is what a mash table of the Lander depends on.
type tableKey struct {
	minutes      float64
	restC, share float64 // of the exact table with several rests; else 0
}

// table is the mash with the chosen rest of some length, over its temperature.
func (l *Lander) table(minutes float64) (*mashTables, error) {
	key := tableKey{minutes: minutes}
	if t, ok := l.tables[key]; ok || l.plan.LaboratoryKg <= 0 {
		return t, nil
	}
	d := l.base
	d.Mash.Rest = slices.Clone(d.Mash.Rest)
	d.Mash.Rest[l.rest].Minutes = minutes
	return l.keep(key, d, l.rest)
}

// exactTable is the table that the engine would predict the work brew with, over
// the temperature of the first rest. With one rest that is the same; with
// several it depends on the chosen rest, and on the grist by the speed at which
// it is heated.
func (l *Lander) exactTable(s lever.Setting) (*mashTables, error) {
	if len(l.base.Mash.Rest) == 1 {
		return l.table(s.Minutes)
	}
	key := tableKey{minutes: s.Minutes, restC: s.RestC, share: s.GrainShare}
	if l.rest == 0 {
		key.restC = -1
	}
	if t, ok := l.tables[key]; ok || l.plan.LaboratoryKg <= 0 {
		return t, nil
	}
	return l.keep(key, l.work.d, 0)
}

func (l *Lander) keep(key tableKey, d design.Design, rest int) (*mashTables, error) {
	t, _, err := l.engine.tables(d, rest)
	if err != nil {
		return nil, err
	}
	if len(l.tables) >= mostTables {
		clear(l.tables)
	}
	l.tables[key] = t
	return t, nil
}

// mostTables bounds what is kept: every minute of the lever and some more.
const mostTables = 256

// at makes the work brew stand at a setting.
func (l *Lander) at(s lever.Setting) (*Brew, error) {
	if bad := s.NotFinite(); bad != "" {
		return nil, message.Fault("%s is not a number", bad)
	}
	b := &l.work
	for i, kg := range l.grainKg {
		b.d.Grain[i].MassKg = kg
	}
	s.Into(&b.d, l.rest, l.honey)
	b.yeast = b.d.Yeast[0]
	b.plan = recipe.Liquor(b.d)
	var err error
	b.mash, err = l.exactTable(s)
	b.readyTrim()
	b.readyStress()
	return b, err
}

// Land draws the beer of a setting: one point for each draw, into points,
// which is grown as needed.
func (l *Lander) Land(s lever.Setting, points []Landed) ([]Landed, error) {
	b, err := l.at(s)
	if err != nil {
		return points[:0], err
	}
	points = points[:0]
	firstC := b.d.Mash.Rest[0].TemperatureC
	var r Beer
	of := landedOf{
		b.crushCost, b.plan.LaboratoryKg, b.plan.KeptShare, b.bears, b.trim,
		b.d.Kit.MashEfficiencyPct, b.d.Kit.RestErrorC, b.yeast.AttenuationLowPct, b.yeast.AttenuationHighPct,
	}
	if of != l.landed || !slices.Equal(b.d.Honey, l.landedHoney) || len(b.draws) == 0 {
		b.drawAll(&l.engine)
		l.landed, l.landedHoney = of, append(l.landedHoney[:0], b.d.Honey...)
	}
	cells := l.rows.at(b, l.engine.fixed, firstC)[0]
	for i := range b.draws {
		b.balance(&cells[i], &b.draws[i], &b.honeys[i], &r)
		points = append(points, Landed{Dryness: r.Dryness, Body: r.Body, StrengthPct: r.ABVPct, FinalGravitySG: r.FinalGravitySG})
	}
	return points, nil
}

// HoneyCharacter is the index of a setting as [Engine.Predict] gives its mid value.
// It takes a whole fermentation, so it is worked out apart from [Lander.Land].
func (l *Lander) HoneyCharacter(s lever.Setting) (float64, error) {
	b, err := l.at(s)
	if err != nil {
		return 0, err
	}
	b.clock = l.engine.doubts.pace(0)
	b.mid = b.Inputs(&l.engine.middle)
	b.Ferment(&b.mid, &l.course)
	return honey.Character(b.CharacterInput(&l.course.Fermentation)...).Mid, nil
}

// Bands are the percentiles of what [Lander.Land] drew.
func (l *Lander) Bands(points []Landed) [Outcomes]Band {
	s := &l.series
	for o := range s {
		s[o] = s[o][:0]
	}
	for i := range points {
		p := &points[i]
		s[FinalGravity] = append(s[FinalGravity], p.FinalGravitySG)
		s[Strength] = append(s[Strength], p.StrengthPct)
		s[Dryness] = append(s[Dryness], p.Dryness)
		s[Body] = append(s[Body], p.Body)
	}
	var bands [Outcomes]Band
	for o := range bands {
		if len(s[o]) > 0 {
			bands[o] = BandOf(s[o])
		}
	}
	return bands
}

// Difference is what the second of two beers that [Lander.Land] drew has more than
// the first, by the four outcomes.
func (l *Lander) Difference(from, to []Landed) [Outcomes]Band {
	if len(from) != len(to) {
		return [Outcomes]Band{}
	}
	l.less = l.less[:0]
	for i := range to {
		a, b := &from[i], &to[i]
		l.less = append(l.less, Landed{Dryness: b.Dryness - a.Dryness, Body: b.Body - a.Body, StrengthPct: b.StrengthPct - a.StrengthPct, FinalGravitySG: b.FinalGravitySG - a.FinalGravitySG})
	}
	return l.Bands(l.less)
}

// Chosen are the rest and the honey that the levers move; honey is -1 where
// there is none.
func (l *Lander) Chosen() (rest, honey int) { return l.rest, l.honey }
