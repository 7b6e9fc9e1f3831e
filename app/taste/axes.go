package taste

import (
	"fmt"

	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// The corners of the levers over which the axes stand still: from a strain
// that leaves much and no honey, to one that leaves little and plenty of it.
// Beyond them the axes widen outwards (plotting.Axes).
var axesCorners = []struct{ low, high, honeyGPerL float64 }{
	{65, 72, 0},
	{84, 90, 60},
}

// axesFor is the fixed ranges of a design: they depend on the grist and the
// batch, not on where a lever stands, so that no picture jumps while one moves.
func axesFor(e *calc.Engine, d design.Design, rest int, temperaturesC []float64) (plotting.Ranges, error) {
	var all []calc.Curves
	for _, c := range axesCorners {
		d := d.Clone()
		d.Yeast = d.Yeast[:1]
		d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = c.low, c.high
		d.Honey = nil
		if c.honeyGPerL > 0 {
			h := design.NewHoney()
			h.MassKg = c.honeyGPerL * d.Batch.IntoFermenterL / 1000
			d.Honey = []design.Honey{h}
		}
		curves, err := e.Curves(d, rest, temperaturesC)
		if err != nil {
			return plotting.Ranges{}, err
		}
		all = append(all, curves)
	}
	return plotting.Span(all...), nil
}

// axesKeyOf names what the fixed ranges depend on.
func axesKeyOf(v ask) string {
	d := &v.taught.Design
	return fmt.Sprint(d.Batch, d.Grain, d.Kit.MashEfficiencyPct, d.Kit.RestErrorC, len(d.Mash.Rest), v.rest)
}

// fit moves the axes for the next frame.
func (l *worker) fit(v ask, shown ...calc.Curves) (gliding bool, err error) {
	key := axesKeyOf(v)
	first := l.axes == nil
	if first || key != l.axesKey {
		// The axes' own engine, so that the design's mash stays tabulated.
		fixed, err := axesFor(l.axesEngine, v.taught.Design, v.rest, l.temperaturesC)
		if err != nil {
			return false, err
		}
		l.axesKey = key
		if first {
			l.axes = plotting.NewAxes(fixed)
		} else {
			l.axes.Refix(fixed)
		}
	}
	if v.settled {
		l.axes.Release(shown...)
	} else {
		l.axes.Cover(shown...)
	}
	now := l.now()
	since := now.Sub(l.lastTick)
	l.lastTick = now
	if first || v.reducedMotion {
		l.axes.Jump()
		return false, nil
	}
	// After a rest the first step of a glide is one frame long, not minutes.
	return l.axes.Advance(min(since, ui.FrameTime)), nil
}
