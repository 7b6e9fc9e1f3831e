package ferment

import (
	"image"
	"image/color"
	"math"
	"time"

	"skep/app/ui"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/honeyways"
	"skep/calc/measured"
	"skep/calc/nextreading"
	"skep/plotting"
	"skep/plotting/style"
)

// ask is what the Ferment place's worker needs to know.
type ask struct {
	taught  ui.Taught
	size    plotting.Size
	palette style.Palette
	course  plotting.Course // its words, units and colours
	note    func(pitched time.Time, hour float64) string
}

// frame is its answer.
type frame struct {
	design  design.Design
	lessons int           // that the numbers use
	batch   *follow.Batch // nil: err says why
	err     error
	ways    honeyways.Ways
	left    bool // there is honey left, and ways of it
	// What keeping the beer cooler or warmer from now on would do; nil: nothing
	// is left to do.
	cooler, warmer *follow.Bands
	next           []nextreading.Worth // what could be measured
	course         plotting.Course
	image          *image.RGBA
	layout         plotting.CourseLayout
}

// follower follows the fermentation, on a worker of its own.
type follower struct {
	follower follow.Follower
	drawer   *plotting.CourseDrawer

	of    *design.Design
	with  string // the doubts
	at    time.Time
	rough bool // kept was made while something moved
	kept  frame
}

func newFollower() *follower { return &follower{drawer: plotting.NewCourseDrawer()} }

func (l *follower) frame(ask ask) *frame {
	d, with := ask.taught.Design, ask.taught.Key()
	if l.of == nil || l.with != with || l.rough && !ask.taught.Moving || !l.at.Equal(ask.taught.Now) || !l.of.Equal(d) {
		f := frame{design: d, lessons: len(ask.taught.Lessons)}
		f.batch, f.err = l.follower.Follow(d, ask.taught.Now, measured.Instruments{}, ask.taught.Doubts)
		if f.err == nil {
			f.ways, f.left = honeyways.Of(f.batch)
			f.cooler, f.warmer, f.next = l.kept.cooler, l.kept.warmer, l.kept.next
			if !ask.taught.Moving {
				f.cooler, f.warmer = f.batch.Warmed(-warmthStepC), f.batch.Warmed(warmthStepC)
				f.next = f.batch.Next()
			}
		}
		l.of, l.with, l.at, l.rough, l.kept = &d, with, ask.taught.Now, ask.taught.Moving, f
	}
	f := l.kept
	if f.err != nil {
		return &f
	}
	c := ask.course
	l.fill(&c, f.batch, ask.note)
	f.course = c
	f.image, f.layout = l.drawer.Draw(&c, ask.size, &ask.palette)
	return &f
}

// Hours shown at least, and beyond the last thing that is seen.
const (
	leastHours  = 96.0
	beyondHours = 12.0
)

// fill puts a batch into the picture.
func (l *follower) fill(c *plotting.Course, b *follow.Batch, note func(time.Time, float64) string) {
	t := &b.Timeline
	line := func(x *follow.Bands) plotting.CourseLine {
		return plotting.CourseLine{Hours: x.Hours, GravitySG: x.GravitySG, CO2RateGPerLH: x.CO2RateGPerLH, TemperatureC: x.TemperatureC}
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
		case measured.OriginalGravity, measured.Gravity, measured.FinalGravity:
			c.Points = append(c.Points, at)
		case measured.HoneyAdded:
			at.Kind = plotting.HoneyAdds
			c.Points = append(c.Points, at)
		case measured.BeerTemperature:
			if p.Used {
				c.Measured = append(c.Measured, plotting.KeptAt{FromHours: at.Hours, TemperatureC: p.Value})
			}
		case measured.Foam:
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
	if steps := plotting.StretchesOf(b.After.Hours, b.After.TemperatureC); len(steps) > 1 {
		end = max(end, steps[len(steps)-1].FromHours+2*beyondHours) // with what it is brought to last
	}
	if n := len(b.After.Hours); n > 0 {
		end = min(end, b.After.Hours[n-1])
	}
	c.Hours = plotting.Range{Low: 0, High: end}
}

// horizonHours is how long after all is done "now" is still shown.
const horizonHours = 14 * 24.0

// warmthStepC is how much cooler or warmer is tried.
const warmthStepC = 2.0

// courseColours are the look's for what is no line.
func courseColours(honey, warn color.NRGBA) plotting.Course {
	return plotting.Course{Honey: honey, Warn: warn}
}
