package packaging

import (
	"math"

	"skep/calc/message"
	"skep/calc/quantity"
)

func volumes(v float64) quantity.Quantity { return quantity.Of(quantity.CO2Volumes, v) }

// WholeDays are days as a person counts them, rounded up.
func WholeDays(days float64) float64 { return math.Ceil(days - 1e-9) }

// Gap is the days between equal readings.
func (g *Guard) Gap() quantity.Quantity { return quantity.Number(int(g.EqualReadingsDays)) }

// Headroom is what may still ferment in the bottle, in a person's own unit: a point is
// four times less than a °P, and who reads those must not take the one for the other.
func (g *Guard) Headroom() quantity.Quantity { return Points(math.Max(0, g.HeadroomPoints)) }

// Points are thousandths of gravity for a person's unit.
func Points(points float64) quantity.Quantity { return quantity.Of(quantity.FinePoints, points/1000) }

// Say is an alarm in words, with what can be done about it.
func (g *Guard) Say(a Alarm) message.Message {
	switch a.Kind {
	case OverRated:
		return message.New("Do not bottle this: {volumes} of CO2 are more than the bottle is made for, {rated}, and may burst it: {most} at most, or bottles made for {stronger} and their maker's figure in the design",
			volumes(g.PlannedVolumes), volumes(g.RatedVolumes).Unitless(), volumes(math.Max(0, a.LowerToVolumes)).Unitless(), volumes(a.StrongerVolumes).Unitless())
	case LittleHeadroom:
		return message.New("Only {points} of gravity may still ferment before a bottle holds more than it is made for, {rated}: plan {lower}, take bottles made for {stronger}, or know the end by a forced fermentation",
			g.Headroom(), volumes(g.RatedVolumes), volumes(math.Max(0, a.LowerToVolumes)).Unitless(), volumes(a.StrongerVolumes).Unitless())
	case SlowStrain:
		return message.New("This strain eats dextrin and goes on for weeks: equal readings {gap} days apart or more before bottling, or a forced fermentation of the beer as it is, which tells in days", g.Gap())
	case SlowHoney:
		return message.New("Raw honey's enzymes go on freeing sugar for weeks: equal readings {gap} days apart or more before bottling, or a forced fermentation of the beer as it is, unheated; boiled honey does not do it", g.Gap())
	case SlowHops:
		return message.New("Hops added cold free sugar from dextrin: equal readings {gap} days apart or more after they went in, or a forced fermentation with the hops in it", g.Gap())
	case HoneyPastWindow:
		return message.New("Honey after the window may find the yeast too tired, and ferment in the bottle: add it in the window, or bottle only by a forced fermentation")
	}
	return message.New("Readings contradict each other: read again before bottling")
}
