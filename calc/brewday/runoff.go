package brewday

import (
	"math"

	"skep/calc/boil"
	"skep/calc/cautions"
	"skep/calc/message"
	"skep/calc/quantity"
)

// slowestLPerMin is the slowest run-off that anybody waits for.
const slowestLPerMin = 0.4

// runOff is the wort through the chiller into the fermenter.
func (b *brew) runOff() (Step, bool) {
	p := &b.plan
	chiller, hot := b.chiller()
	out, waterOut, _ := chiller.RunOff(hot)
	run := chiller.RunOffMinutes(p.IntoFermenter + p.LeftInChillerL)
	s := Step{Key: RunOff, Title: message.New("Run-off"), Why: message.New("From here on, all that touches the wort is sanitised first.")}
	s.lead("fermenter", litres(p.IntoFermenter))
	s.lead("out", celsius(out))
	s.number("pace, about", of(quantity.Flow, chiller.WortLPerMin))
	s.number("takes", minutes(run))
	s.number("tap water", celsius(b.d.Kit.TapC))
	s.number("uses", litres(run*chiller.WaterLPerMin))
	s.do("Water on, then wort; the thermometer behind the chiller sets the pace: slower is cooler")
	s.do("Stuck: pump off, wait {minutes}, stir the cone gently; push back only with cold boiled water", minutes(5))
	s.blank("into the fermenter", "volume-into-fermenter", quantity.Volume, litres(p.IntoFermenter))
	s.Cautions = []message.Message{cautions.Hose(), cautions.Cleaner()}
	if waterOut >= safeToOpenC {
		s.Cautions = append(s.Cautions, cautions.CoolingWater())
	}
	b.warnTap(&s, chiller, out)
	return s, true
}

// chiller is the usual chiller at the pace that brings the wort to the
// temperature of pitching, and the temperature the wort enters it at. Where no
// pace does, it is the slowest; where any does, the usual.
func (b *brew) chiller() (c boil.Chiller, hotC float64) {
	c = boil.UsualChiller(b.d.Kit.TapC)
	hotC = b.hops().Stand().EndC
	want := b.yeast.TemperatureC
	if want <= 0 {
		return c, hotC
	}
	at := func(pace float64) float64 {
		k := c
		k.WortLPerMin = pace
		out, _, _ := k.RunOff(hotC)
		return out
	}
	usual := c.WortLPerMin
	switch {
	case at(usual) <= want:
	case at(slowestLPerMin) > want:
		c.WortLPerMin = slowestLPerMin
	default:
		low, high := slowestLPerMin, usual
		for range 40 {
			if mid := (low + high) / 2; at(mid) > want {
				high = mid
			} else {
				low = mid
			}
		}
		c.WortLPerMin = low
	}
	return c, hotC
}

// warnTap says what to do about tap water too warm to cool the wort.
func (b *brew) warnTap(s *Step, c boil.Chiller, out float64) {
	want := b.yeast.TemperatureC
	if want <= 0 || out <= want+pitchOverC {
		return
	}
	s.warn(keys("kit.tap_c"), "Tap water at {tap} cools the wort to {coldest} at best, and the yeast wants {wanted}: ice in the water, or cool on in the closed fermenter and pitch at {pitch} or less",
		celsius(c.TapC), celsius(math.Max(out, c.TapC)), celsius(want), celsius(want+pitchOverC))
}
