package measured

import (
	"fmt"
	"math"
	"slices"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Spent is a lever that can't be moved any more, with what was measured.
type Spent struct {
	Lever string  // as taste.hold names it
	Key   string  // of the design, where a value was measured; empty otherwise
	Value float64 // of Key
	Why   Reason
	At    time.Time // when that was; zero: not written down
}

// Reason is why a lever is spent.
type Reason int

// The reasons.
const (
	WortPitched    Reason = iota + 1
	MashRunOff            // not pitched yet
	RestMeasured          // in the mash
	VolumeMeasured        // in the fermenter
	HoneyIn               // logged
	AllHoneyIn            // that was planned
	FinalLogged           // a final gravity is
)

// Conditioned is a design with what was measured in the place of what was
// planned.
type Conditioned struct {
	Design    design.Design // without its readings
	Spent     []Spent
	HoneyLeft []int // honeys of Design that have not gone in yet

	RestRead   []bool        // by rest: its temperature was measured
	HoneyHours []float64     // by honey: hours after pitching where logged, NaN where not
	BeerSD     float64       // of the beer's temperature; 0: not measured
	changes    []calc.Change // of the beer's temperature, as it was measured
	lowestSG   float64       // that was read of the beer since honey last went in; 0: none
	readHours  float64       // of the last gravity of the beer; 0: none
}

// Logged is what was written down and has no key in the design, as an engine
// takes it.
func (c *Conditioned) Logged(nowHours float64) calc.Logged {
	l := calc.Logged{RestRead: c.RestRead, HoneyHours: c.HoneyHours, NowHours: nowHours, BeerSD: c.BeerSD, Changes: slices.Clone(c.changes)}
	if nowHours > 0 {
		l.LowestSG, l.ReadHours = c.lowestSG, c.readHours // a plan knows of no gravity
	}
	return l
}

// NowC is what the beer is kept at: the design's temperature, or what it was last
// brought to, as measured.
func (c *Conditioned) NowC() float64 {
	if n := len(c.changes); n > 0 {
		return c.changes[n-1].TemperatureC
	}
	return c.Design.Yeast[0].TemperatureC
}

// Hold are the spent levers as taste.hold takes them, each once. A lever of
// which one of several honeys is left is not held.
func (c *Conditioned) Hold() []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range c.Spent {
		if !seen[s.Lever] {
			seen[s.Lever] = true
			out = append(out, s.Lever)
		}
	}
	return out
}

// SpentAt says whether a lever, as taste.hold names it, can't be moved any more
// at a rest and a honey, and why: with what was measured there, if it was.
func (c *Conditioned) SpentAt(lever string, rest, honey int) (Spent, bool) {
	key := ""
	switch lever {
	case design.LeverRest:
		key = fmt.Sprintf("mash.rest.%d.temperature_c", rest)
	case design.LeverHoney, design.LeverMoment:
		if honey < 0 || honey >= len(c.Design.Honey) || slices.Contains(c.HoneyLeft, honey) {
			return Spent{}, false // still to come, or none yet
		}
		key = fmt.Sprintf("honey.%d.mass_kg", honey)
	}
	var found, pitched Spent
	for _, s := range c.Spent {
		switch {
		case key != "" && s.Key == key:
			return s, true
		case s.Lever == lever && found.Lever == "":
			found = s
		case s.Lever == design.LeverYeast:
			pitched = s
		}
	}
	if found.Lever == "" && key != "" && lever != design.LeverRest {
		found = pitched // planned for before the yeast, and other honey is left
	}
	return found, found.Lever != ""
}

// RangeOf keeps a measured value within what the design's key may hold.
func RangeOf(path string, v float64) float64 {
	if k, ok := design.KeyOf(path); ok {
		return min(max(v, k.Min), k.Max)
	}
	return v
}

// Condition puts measured values into a design and names the levers that are
// spent. heightHours is where the height is thought to be, hours after
// pitching: the file gives honey's moment from there. Measured gravities don't
// belong into the design: they are the posterior's ([Batch.Evaluate]).
func Condition(d design.Design, t *Timeline, heightHours float64) Conditioned {
	c := Conditioned{Design: d.Clone()}
	c.Design.Reading = nil
	w := &c.Design
	set := func(lever, key string, field *float64, v float64, why Reason, at time.Time) {
		*field = RangeOf(key, v)
		c.Spent = append(c.Spent, Spent{lever, key, *field, why, at})
	}
	if v := t.Used(VolumeFermenter); len(v) > 0 {
		p := v[len(v)-1]
		slip := *w // a slip of the keyboard must not refuse the whole design
		if slip.Batch.IntoFermenterL = RangeOf("batch.into_fermenter_l", p.Value); tooHeavy(&slip) && !tooHeavy(w) {
			p.drop(Absurd, "{volume} in the fermenter: heavier than any wort", quantity.Of(quantity.Volume, p.Value))
		} else {
			set(design.LeverGrain, "batch.into_fermenter_l", &w.Batch.IntoFermenterL, p.Value, VolumeMeasured, p.At)
		}
	} else {
		c.boiled(t)
	}
	c.mash(t, set)
	if kept, sd := t.kept(); len(kept) > 0 {
		c.BeerSD = sd
		if len(w.Yeast) > 0 {
			// Not spent: what is ahead can still be warmed or cooled.
			w.Yeast[0].TemperatureC = RangeOf("yeast.0.temperature_c", kept[0].meanC)
		}
		for _, k := range kept[1:] {
			c.changes = append(c.changes, calc.Change{Hours: k.from, TemperatureC: k.meanC})
		}
	}
	if t.Pitched {
		for _, l := range []string{design.LeverRest, design.LeverMinutes, design.LeverGrain, design.LeverYeast} {
			c.Spent = append(c.Spent, Spent{Lever: l, Why: WortPitched, At: t.PitchedAt})
		}
	} else if g := t.Used(OriginalGravity, PreBoilGravity, PostBoilGravity, PostBoilVolume); len(g) > 0 {
		for _, l := range []string{design.LeverRest, design.LeverMinutes, design.LeverGrain} {
			c.Spent = append(c.Spent, Spent{Lever: l, Why: MashRunOff, At: g[0].At})
		}
	}
	c.honey(t, heightHours)
	c.Lowest(t)
	if f := t.Used(FinalGravity); len(f) > 0 {
		c.Spent = append(c.Spent, Spent{Lever: design.LeverYeastC, Why: FinalLogged, At: f[0].At})
	}
	return c
}

// dayVolumeShare is 1 sd of how far a volume of the day is from its plan, in shares of
// it (common practice, no source).
const dayVolumeShare = 0.03

// boiled lets a volume measured in the vessel, after the boil or before it, say how
// much reaches the fermenter: what is lost on the way is planned, and plan and mark
// are believed as well as each is known. How unsure that leaves the volume no draw
// knows; the gravities, which the beer hangs on, are the posterior's.
func (c *Conditioned) boiled(t *Timeline) {
	w := &c.Design
	plan := recipe.Liquor(*w)
	planned, all := plan.PostBoil, t.Used(PostBoilVolume)
	if len(all) == 0 {
		planned, all = plan.PreBoil, t.Used(PreBoilVolume)
	}
	if len(all) == 0 || !(planned > 0) {
		return
	}
	p := all[len(all)-1]
	doubt := dayVolumeShare * planned
	believed := doubt * doubt / (doubt*doubt + p.SD*p.SD)
	more := believed * water.CoolL(p.Value-planned, plan.BoilingPointC)
	slip := *w // as for the fermenter's
	if slip.Batch.IntoFermenterL += more; math.Abs(p.Value-planned) > planned/2 || RangeOf("batch.into_fermenter_l", slip.Batch.IntoFermenterL) != slip.Batch.IntoFermenterL || tooHeavy(&slip) && !tooHeavy(w) {
		p.drop(Absurd, "{volume} in the vessel, where {planned} are planned: not used", quantity.Of(quantity.Volume, p.Value), quantity.Of(quantity.Volume, planned))
		return
	}
	w.Batch.IntoFermenterL = slip.Batch.IntoFermenterL
}

// Lowest finds the lowest gravity since honey last went in, and the last; again where a gravity
// has been left out.
func (c *Conditioned) Lowest(t *Timeline) {
	c.lowestSG, c.readHours = 0, 0
	for _, p := range t.Used(HoneyAdded, Gravity, FinalGravity) {
		switch {
		case p.What == HoneyAdded:
			c.lowestSG = 0
			continue
		case c.lowestSG == 0 || p.Value < c.lowestSG:
			c.lowestSG = p.Value
		}
		c.readHours = p.Hours
	}
}

// mash puts measured rests in: each reading belongs to the rest set nearest to
// it, within four degrees, the mean of them counts.
func (c *Conditioned) mash(t *Timeline, set func(lever, key string, field *float64, v float64, why Reason, at time.Time)) {
	rests := c.Design.Mash.Rest
	sum, n := make([]float64, len(rests)), make([]float64, len(rests))
	at := make([]time.Time, len(rests))
	for _, p := range t.Used(MashTemperature) {
		best := -1
		for i, r := range rests {
			gap := math.Abs(r.TemperatureC - p.Value)
			if gap <= 4 && (best < 0 || gap < math.Abs(rests[best].TemperatureC-p.Value)) {
				best = i
			}
		}
		if best < 0 {
			p.flag(Absurd, "a mash at {temperature} belongs to none of the rests: not used", quantity.Of(quantity.Temperature, p.Value))
			p.Used = false
			continue
		}
		sum[best] += p.Value
		n[best]++
		at[best] = p.At
	}
	c.RestRead = make([]bool, len(rests))
	for i := range rests {
		if n[i] > 0 {
			c.RestRead[i] = true
			set(design.LeverRest, fmt.Sprintf("mash.rest.%d.temperature_c", i), &rests[i].TemperatureC, sum[i]/n[i], RestMeasured, at[i])
		}
	}
}

// tooHeavy tells whether there is more extract than any wort holds.
func tooHeavy(d *design.Design) bool {
	plan := recipe.Liquor(*d)
	return recipe.TooHeavy(d, &plan) != nil
}
