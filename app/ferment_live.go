package app

import (
	"image"
	"image/color"
	"math"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/follow"
	"skep/plotting"
)

// fermentAsk is what the Ferment place's worker needs to know.
type fermentAsk struct {
	design  design.Design
	doubts  calc.Doubts // what the ledger has narrowed
	lessons int         // how many lessons are in the design and the doubts
	now     time.Time
	moving  bool // something is dragged: what is dear can wait
	size    plotting.Size
	palette plotting.Palette
	course  plotting.Course // its words, units and colours
	note    func(pitched time.Time, hour float64) string
}

// fermentFrame is its answer.
type fermentFrame struct {
	design  design.Design
	lessons int           // that the numbers use
	batch   *follow.Batch // nil: err says why
	err     error
	ways    []honeyWay
	more    honeyWay // a step more of it than planned
	// What keeping the beer cooler or warmer from now on would do; nil: nothing
	// is left to do.
	cooler, warmer *follow.Bands
	image          *image.RGBA
	layout         plotting.CourseLayout
}

// fermentLive follows the fermentation, on a worker of its own.
type fermentLive struct {
	follower follow.Follower
	drawer   *plotting.CourseDrawer

	of    *design.Design
	with  string // the doubts
	at    time.Time
	rough bool // kept was made while something moved
	kept  fermentFrame
}

func newFermentLive() *fermentLive { return &fermentLive{drawer: plotting.NewCourseDrawer()} }

func (l *fermentLive) frame(ask fermentAsk) *fermentFrame {
	with := doubtsKey(ask.doubts)
	if l.of == nil || l.with != with || l.rough && !ask.moving || !l.at.Equal(ask.now) || !l.of.Equal(ask.design) {
		f := fermentFrame{design: ask.design, lessons: ask.lessons}
		f.batch, f.err = l.follower.Follow(ask.design, ask.now, follow.Instruments{}, ask.doubts)
		if f.err == nil {
			f.ways, f.more = honeyWays(f.batch)
			f.cooler, f.warmer = l.kept.cooler, l.kept.warmer
			if !ask.moving {
				f.cooler, f.warmer = kept(f.batch, -warmthStepC), kept(f.batch, warmthStepC)
			}
		}
		l.of, l.with, l.at, l.rough, l.kept = &ask.design, with, ask.now, ask.moving, f
	}
	f := l.kept
	if f.err != nil {
		return &f
	}
	c := ask.course
	l.fill(&c, f.batch, ask.note)
	f.image, f.layout = l.drawer.Draw(&c, ask.size, &ask.palette)
	return &f
}

// Hours shown at least, and beyond the last thing that is seen.
const (
	leastHours  = 96.0
	beyondHours = 12.0
)

// fill puts a batch into the picture.
func (l *fermentLive) fill(c *plotting.Course, b *follow.Batch, note func(time.Time, float64) string) {
	t := &b.Timeline
	line := func(x *follow.Bands) plotting.CourseLine {
		return plotting.CourseLine{Hours: x.Hours, GravitySG: x.GravitySG, CO2RateGPerLH: x.CO2RateGPerLH}
	}
	c.After = line(&b.After)
	c.Height, c.Window, c.Finished, c.Now = b.After.HeightHours, b.After.WindowHours, b.After.FinishedHours, math.NaN()
	end := max(leastHours, b.After.FinishedHours.High+beyondHours)
	doubted := map[int]bool{}
	for _, d := range b.Doubts {
		for _, i := range d.Points {
			doubted[i] = true
		}
	}
	seen := 0
	for i, p := range t.Points {
		at := plotting.CoursePoint{Hours: max(p.Hours, 0), SG: p.Value, SD: p.SD}
		switch {
		case !p.Used:
			at.Kind = plotting.Unused
		case doubted[i]:
			at.Kind = plotting.Doubted
		}
		switch p.What {
		case follow.OriginalGravity, follow.Gravity, follow.FinalGravity:
			c.Points = append(c.Points, at)
		case follow.HoneyAdded:
			at.Kind = plotting.HoneyAdds
			c.Points = append(c.Points, at)
		case follow.Foam:
			at.Foam = int(p.Value)
			c.Foam = append(c.Foam, at)
		default:
			continue
		}
		if p.Used {
			seen++
			end = max(end, p.Hours+beyondHours)
		}
	}
	for _, h := range b.Moment.Planned {
		// What is overdue is expected now.
		c.Points = append(c.Points, plotting.CoursePoint{Hours: max(t.NowHours+h.From.Mid, t.NowHours), Kind: plotting.HoneyPlanned})
	}
	if seen > 0 {
		before := line(&b.Before)
		c.Before = &before
	}
	if t.Pitched {
		// Of a batch of last year only what was looked at is of interest.
		if t.NowHours >= 0 && t.NowHours < end+horizonHours {
			c.Now = t.NowHours
			end = max(end, t.NowHours+beyondHours)
		}
		c.HourNote = func(hour float64) string { return note(t.PitchedAt, hour) }
	}
	if n := len(b.After.Hours); n > 0 {
		end = min(end, b.After.Hours[n-1])
	}
	c.Hours = plotting.Range{Low: 0, High: end}
}

// horizonHours is how long after all is done "now" is still shown.
const horizonHours = 14 * 24.0

// honeyWay is an amount of the honey that is still to go in, and where the beer
// then lands.
type honeyWay struct {
	massKg float64
	lands  [calc.Outcomes]calc.Band
	miss   float64 // from what is wanted
}

// planKg are the amounts that are tried: from none to twice the plan, or up to
// what makes a difference where nothing is planned.
const (
	honeySteps   = 12
	leastSpanKg  = 0.5
	honeyStepKg  = 0.01
	arrowKg      = 0.1
	mostHoneyKg  = 50.0
	strengthUnit = 0.1 // per cent that weigh as much as two points of an index
)

// honeyWays is where amounts of the first honey that is left would land: the
// first is the one nearest to what is wanted, the others run from none upwards.
func honeyWays(b *follow.Batch) (all []honeyWay, more honeyWay) {
	c := &b.Conditioned
	if !b.Timeline.Pitched || len(c.HoneyLeft) == 0 {
		return nil, more
	}
	place := c.HoneyLeft[0]
	d := c.Design.Clone()
	try := func(kg float64) (honeyWay, bool) {
		d.Honey[place].MassKg = kg
		lands, err := b.Land(d)
		return honeyWay{massKg: kg, lands: lands, miss: missOf(&d.Taste, lands)}, err == nil
	}
	span := min(max(2*c.Design.Honey[place].MassKg, leastSpanKg), mostHoneyKg)
	best := -1
	for i := range honeySteps + 1 {
		w, ok := try(roundTo(span*float64(i)/honeySteps, honeyStepKg))
		if !ok {
			return nil, more
		}
		all = append(all, w)
		if best < 0 || w.miss < all[best].miss {
			best = i
		}
	}
	more, _ = try(c.Design.Honey[place].MassKg + arrowKg)
	if math.IsNaN(all[best].miss) {
		return append([]honeyWay{{massKg: math.NaN()}}, all...), more
	}
	// Between its neighbours, by thirds: the miss has one valley there.
	low, high := all[max(best-1, 0)].massKg, all[min(best+1, honeySteps)].massKg
	nearest := all[best]
	for range 12 {
		a, _ := try(low + (high-low)/3)
		z, _ := try(high - (high-low)/3)
		if a.miss < z.miss {
			high = z.massKg
		} else {
			low = a.massKg
		}
	}
	if w, ok := try(roundTo((low+high)/2, honeyStepKg)); ok && w.miss < nearest.miss {
		nearest = w
	}
	return append([]honeyWay{nearest}, all...), more
}

// warmthStepC is how much cooler or warmer is tried.
const warmthStepC = 2.0

// kept is what the beer would do if it were kept so much warmer from now on;
// nil when it is not fermenting, or where the yeast could not follow.
func kept(b *follow.Batch, by float64) *follow.Bands {
	if !b.Timeline.Pitched || b.State.Is(follow.Finished) || b.Timeline.NowHours > b.After.FinishedHours.High {
		return nil
	}
	d := b.Conditioned.Design.Clone()
	t := d.Yeast[0].TemperatureC + by
	if t < ferment.ColdestC || t > ferment.WarmestC {
		return nil
	}
	d.Yeast[0].TemperatureC = t
	x, err := b.Evaluate(d)
	if err != nil {
		return nil
	}
	return &x
}

// missOf is how far a landing is from what is wanted, in points of an index;
// NaN when nothing is.
func missOf(t *design.Taste, lands [calc.Outcomes]calc.Band) float64 {
	sum, n := 0.0, 0
	add := func(want *float64, is, unit float64) {
		if want != nil {
			sum += ((is - *want) / unit) * ((is - *want) / unit)
			n++
		}
	}
	add(t.Dryness, lands[calc.Dryness].Mid, 1)
	add(t.Body, lands[calc.Body].Mid, 1)
	add(t.StrengthPct, lands[calc.Strength].Mid, strengthUnit/2)
	if n == 0 {
		return math.NaN()
	}
	return math.Sqrt(sum / float64(n))
}

// courseColours are the look's for what is no line.
func courseColours(honey, warn color.NRGBA) plotting.Course {
	return plotting.Course{Honey: honey, Warn: warn}
}
