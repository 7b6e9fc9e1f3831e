package app

import (
	"fmt"
	"math"
	"slices"

	"fyne.io/fyne/v2"

	"skep/app/lever"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
)

// Names of the levers in the design's taste.hold.
const (
	holdRest    = "mash.rest"
	holdMinutes = "mash.minutes"
	holdYeast   = "yeast"
	holdHoney   = "honey.mass"
	holdMoment  = "honey.moment"
)

// levers are the five that the Taste place has at its left.
type levers struct {
	b *bench

	rest    *lever.Lever
	minutes *lever.Lever
	yeast   *lever.TwoHanded
	honey   *lever.Lever
	moment  *lever.Lever

	yeastName, honeyName, restName *ui.Choice

	restAt, honeyAt int // which rest and which honey the levers move
}

// Ranges of the levers where the design file allows more: what a sensible brew
// holds. A design outside them is shown as it is.
const (
	minutesMost    = 120.0
	attenuationMin = 60.0
	attenuationMax = 100.0
	honeyMostGPerL = 80.0
)

func newLevers(b *bench) *levers {
	l := &levers{b: b}
	d := b.editor.Design()

	l.rest = lever.New(words.T("Mash rest"), lever.Scale{Min: calc.RestLowC, Max: calc.RestHighC, Step: 0.1, Big: 1, Page: 2}, 66,
		func(v float64) string { return b.say.Format(quantity.Temperature, v) })
	l.rest.Parse = func(text string) (float64, string, error) {
		return l.parse(quantity.Temperature, text, quantity.Limits{Low: l.rest.Scale.Min, High: l.rest.Scale.Max})
	}
	l.rest.LowWord, l.rest.HighWord = words.T("lighter, drier"), words.T("fuller, sweeter")
	l.rest.OnChanged = func(v float64) {
		b.moving(words.T("rest temperature"), holdRest, func(d *design.Design) { d.Mash.Rest[l.restIndex(d)].TemperatureC = v })
	}
	l.restName = ui.NewChoice("", true, l.chooseRest)
	l.restName.Name = words.T("which rest")
	l.rest.Sub = l.restName

	l.minutes = lever.New(words.T("Rest time"), lever.Scale{Min: 5, Max: minutesMost, Step: 1, Big: 5, Page: 15}, 60,
		func(v float64) string { return b.say.Format(quantity.Minutes, v) })
	l.minutes.Parse = func(text string) (float64, string, error) {
		return l.parse(quantity.Minutes, text, quantity.Limits{Low: l.minutes.Scale.Min, High: l.minutes.Scale.Max})
	}
	l.minutes.LowWord, l.minutes.HighWord = words.T("shorter"), words.T("longer, drier")
	l.minutes.OnChanged = func(v float64) {
		b.moving(words.T("rest time"), holdMinutes, func(d *design.Design) { d.Mash.Rest[l.restIndex(d)].Minutes = v })
	}

	l.yeast = lever.NewTwoHanded(words.T("Yeast"), lever.Scale{Min: attenuationMin, Max: attenuationMax, Step: 0.5, Big: 2, Page: 5}, 73, 78,
		func(low, high float64) string { return b.say.FormatRange(quantity.Percent, low, high) })
	l.yeast.Parse = func(text string) (float64, float64, string, error) {
		r, err := b.read.ParseRange(quantity.Percent, text, quantity.Limits{Low: l.yeast.Scale.Min, High: l.yeast.Scale.Max})
		return r.Low, r.High, r.Echo, err
	}
	l.yeast.LowWord, l.yeast.HighWord = words.T("sweeter"), words.T("drier")
	l.yeast.OnChanged = func(low, high float64) {
		b.moving(words.T("attenuation"), holdYeast, func(d *design.Design) {
			d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct = low, high
		})
	}
	l.yeastName = ui.NewChoice("", true, l.chooseYeast)
	l.yeastName.Name = words.T("yeast")
	l.yeast.Sub = l.yeastName

	l.honey = lever.New(words.T("Honey"), lever.Scale{Min: 0, Max: 1000, Step: 10, Big: 100, Page: 200}, 0,
		func(v float64) string { return b.say.Format(quantity.MassG, v) })
	l.honey.Parse = func(text string) (float64, string, error) {
		return l.parse(quantity.MassG, text, quantity.Limits{Low: 0, High: l.honey.Scale.Max})
	}
	l.honey.LowWord, l.honey.HighWord = words.T("none"), words.T("stronger, drier")
	l.honey.OnChanged = func(v float64) {
		b.moving(words.T("honey"), holdHoney, func(d *design.Design) { l.theHoney(d).MassKg = v / 1000 })
	}
	l.honeyName = ui.NewChoice("", true, l.chooseHoney)
	l.honeyName.Name = words.T("kind of honey")
	l.honey.Sub = l.honeyName

	l.moment = lever.New(words.T("Honey goes in"), momentScale, momentPitching, func(v float64) string {
		h := design.NewHoney()
		setMoment(&h, v)
		return l.momentText(&h)
	})
	l.moment.Ticks = momentTicks()
	l.moment.Parse = l.parseMoment
	l.moment.OnChanged = func(v float64) {
		b.moving(words.T("moment of the honey"), holdMoment, func(d *design.Design) { setMoment(l.theHoney(d), v) })
	}

	for i, r := range l.rails() {
		name := l.holds()[i]
		r.OnLocked = func(locked bool) { l.lock(name, locked) }
		r.OnHint = b.status.hint
		r.OnNote = b.status.note
	}
	l.rest.OnCommitted = func(float64) { b.ended() }
	l.minutes.OnCommitted = func(float64) { b.ended() }
	l.yeast.OnCommitted = func(float64, float64) { b.ended() }
	l.honey.OnCommitted = func(float64) { b.ended() }
	l.moment.OnCommitted = func(float64) { b.ended() }
	l.opened(&d)
	return l
}

func (l *levers) rails() []*lever.Rail {
	return []*lever.Rail{&l.rest.Rail, &l.minutes.Rail, &l.yeast.Rail, &l.honey.Rail, &l.moment.Rail}
}

func (l *levers) holds() []string {
	return []string{holdRest, holdMinutes, holdYeast, holdHoney, holdMoment}
}

func (l *levers) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{l.rest, l.minutes, l.yeast, l.honey, l.moment}
}

// opened takes a newly opened design's values as what a reset goes back to.
func (l *levers) opened(d *design.Design) {
	l.restAt, l.honeyAt = 0, 0
	r := d.Mash.Rest[0]
	l.rest.SetDefault(r.TemperatureC)
	l.minutes.SetDefault(r.Minutes)
	l.yeast.SetDefaults(d.Yeast[0].AttenuationLowPct, d.Yeast[0].AttenuationHighPct)
	h := l.honeyOf(d)
	l.fitHoney(d)
	l.honey.SetDefault(1000 * h.MassKg)
	l.moment.SetDefault(momentPlace(&h))
	l.update(d)
}

// update shows a design. Levers that already stand there stay untouched.
func (l *levers) update(d *design.Design) {
	l.restAt = l.restIndex(d)
	r := d.Mash.Rest[l.restAt]
	l.minutes.Scale.Max = math.Max(minutesMost, r.Minutes)
	l.rest.SetValue(r.TemperatureC)
	l.minutes.SetValue(r.Minutes)
	y := d.Yeast[0]
	l.yeast.SetValues(y.AttenuationLowPct, y.AttenuationHighPct)
	l.fitHoney(d)
	h := l.honeyOf(d)
	l.honey.SetValue(1000 * h.MassKg)
	l.moment.SetValue(momentPlace(&h))

	l.yeastName.SetText(orUnnamed(y.Name))
	l.honeyName.SetText(orUnnamed(h.Name))
	l.restName.Hidden = len(d.Mash.Rest) < 2
	if len(d.Mash.Rest) > 1 {
		l.restName.SetText(words.T("rest {{.N}} of {{.Of}}", map[string]any{"N": fmt.Sprint(l.restAt + 1), "Of": fmt.Sprint(len(d.Mash.Rest))}))
	}
	for i, rail := range l.rails() {
		rail.SetLocked(slices.Contains(d.Taste.Hold, l.holds()[i]))
	}
}

// fitHoney gives the honey lever a range that suits the batch, and the design.
func (l *levers) fitHoney(d *design.Design) {
	most := math.Ceil(honeyMostGPerL*d.Batch.IntoFermenterL/100) * 100
	h := l.honeyOf(d)
	l.honey.Scale.Max = math.Max(most, 1000*h.MassKg)
}

func orUnnamed(name string) string {
	if name == "" {
		return words.T("unnamed")
	}
	return name
}

// restIndex is the rest that the levers move, in a design that may have fewer.
func (l *levers) restIndex(d *design.Design) int { return min(l.restAt, len(d.Mash.Rest)-1) }

// honeyOf is the honey that the levers show: none yet is a default one of 0 g.
func (l *levers) honeyOf(d *design.Design) design.Honey {
	if len(d.Honey) == 0 {
		h := design.NewHoney()
		h.MassKg = 0
		return h
	}
	return d.Honey[min(l.honeyAt, len(d.Honey)-1)]
}

// theHoney is the honey that the levers move, made when there is none.
func (l *levers) theHoney(d *design.Design) *design.Honey {
	if len(d.Honey) == 0 {
		d.Honey = []design.Honey{l.honeyOf(d)}
	}
	return &d.Honey[min(l.honeyAt, len(d.Honey)-1)]
}

func (l *levers) parse(k quantity.Kind, text string, limits quantity.Limits) (float64, string, error) {
	r, err := l.b.read.Parse(k, text, limits)
	return r.Value, r.Echo, err
}

// lock keeps a lever's place, in the design, so that tuning respects it.
func (l *levers) lock(name string, locked bool) {
	what := words.T("lock")
	if !locked {
		what = words.T("unlock")
	}
	l.b.edit(what, "", func(d *design.Design) {
		d.Taste.Hold = slices.DeleteFunc(slices.Clone(d.Taste.Hold), func(h string) bool { return h == name })
		if locked {
			d.Taste.Hold = append(d.Taste.Hold, name)
		}
	})
}
