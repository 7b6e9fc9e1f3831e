package boil

import (
	"math"

	"skep/calc/water"
)

// Heat loss of an open kettle. The two constants are fitted to the 11 open
// kettles of Hosom 16 (least squares, room 13 °C, root mean square error
// 0.67 °C; the 6 covered ones then come out within 1.6 °C, 0.8 on the mean).
// They are what still air gives: 10 W/(m² K) by convection and radiation, and
// for evaporation 0.115 kW/(m² kPa), which the Lewis relation ties to about
// 7 W/(m² K) of convection.
const (
	evaporationKWPerM2KPa = 0.115
	wallKWPerM2K          = 0.010
	roomHumidity          = 0.5  // relative, of the room's air (assumed)
	wortKJPerLK           = 4.02 // heat of a litre of hot wort (0.958 kg/L, 4.2 kJ/(kg K))
	stepOfTimeConstant    = 0.2  // Runge-Kutta step as a part of the fastest time constant: error below 0.001 °C
	leastSteps            = 12
	mostSteps             = 5000
)

// Kettle is an open vessel of hot wort, standing.
type Kettle struct {
	VolumeL    float64
	SurfaceCM2 float64 // of the wort, from above
	OpeningPct float64 // of that surface left uncovered
	RoomC      float64
}

// Cool is the temperature after some minutes of standing, from startC. The
// walls are taken as a cylinder's. Evaporation goes with the root of surface
// times opening, as Hosom found.
func (k Kettle) Cool(startC, minutes float64) float64 {
	if !(minutes > 0) || !(k.VolumeL > 0) {
		return startC
	}
	end := startC
	k.walk(startC, minutes, func(_, to, _ float64) { end = to })
	return end
}

// walk follows the temperature from startC for some minutes, in steps short
// enough for how fast this kettle cools, and tells step its ends and minutes.
func (k Kettle) walk(startC, minutes float64, step func(from, to, dt float64)) {
	slope := k.slope()
	const bit = 0.5 // °C, for the derivative; cooling is fastest at the hot end
	hottest := math.Max(startC, k.RoomC)
	rate := math.Abs(slope(hottest)-slope(hottest-bit)) / bit // 1/min
	steps := math.Min(math.Max(math.Ceil(minutes*rate/stepOfTimeConstant), leastSteps), mostSteps)
	dt, temperature := minutes/steps, startC
	for range int(steps) {
		next := rungeKutta(slope, temperature, dt)
		step(temperature, next, dt)
		temperature = next
	}
}

func rungeKutta(f func(float64) float64, y, h float64) float64 {
	a := f(y)
	b := f(y + h/2*a)
	c := f(y + h/2*b)
	d := f(y + h*c)
	return y + h/6*(a+2*b+2*c+d)
}

// slope gives the rate of change of the temperature, °C/min.
func (k Kettle) slope() func(float64) float64 {
	surface := math.Max(0, k.SurfaceCM2) / 1e4
	depth := 0.0
	if surface > 0 {
		depth = k.VolumeL / 1000 / surface
	}
	sides := math.Pi * math.Sqrt(4*surface/math.Pi) * depth
	skin := sides + 2*surface // sides, bottom and the wort's own surface
	open := surface * math.Sqrt(math.Min(math.Max(k.OpeningPct/100, 0), 1))
	room := roomHumidity * water.VapourPressureKPa(k.RoomC)
	heat := k.VolumeL * wortKJPerLK
	return func(t float64) float64 {
		kw := evaporationKWPerM2KPa*open*(water.VapourPressureKPa(t)-room) + wallKWPerM2K*skin*(t-k.RoomC)
		return -kw * 60 / heat
	}
}

// Proportions of a vessel whose measures are not known.
const (
	heightPerDiameter = 1.5  // of all-in-one vessels (common practice, no source)
	usualRoomC        = 20.0 // of the brewing place
)

// VesselSurfaceCM2 estimates the wort's surface in a vessel of a volume, taken
// as a cylinder half as high again as it is wide.
func VesselSurfaceCM2(vesselL float64) float64 {
	diameter := math.Cbrt(4 * math.Max(0, vesselL) * 1000 / (math.Pi * heightPerDiameter)) // cm
	return math.Pi / 4 * diameter * diameter
}
