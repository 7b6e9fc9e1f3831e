package brewday

import (
	"math"
	"strconv"

	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/water"
)

// Timer is a clock that runs at a step.
type Timer struct {
	ID      string // of the timer, the same whatever the brew: "boil", "rest.1"
	Name    message.Message
	Minutes float64
	Key     string          // of the design, where its minutes stand; "": nowhere
	Over    message.Message // said when it ends
	Place   int             // it is started before Do of this index
	Calls   []Call          // before its end, first to last
}

// Call is what a timer calls out before its end.
type Call struct {
	LeftMin float64
	What    message.Message
	Amount  quantity.Quantity // None: nothing goes in
}

// Usual minutes of the steps that no design tells the length of; common practice,
// no source.
const (
	crushTakesMin = 15.0
	drawTakesMin  = 10.0
	liftTakesMin  = 15.0
	pitchTakesMin = 15.0
	shakeMin      = 2.0
	minPerPortion = 1.0
)

// Timer is one of a step's; nil where the day has no such.
func (d *Day) Timer(step Key, id string) *Timer {
	s, _ := d.Step(step)
	if s == nil {
		return nil
	}
	for i := range s.Timers {
		if s.Timers[i].ID == id {
			return &s.Timers[i]
		}
	}
	return nil
}

func (s *Step) timer(t Timer) {
	if t.Minutes > 0 && finite(t.Minutes) {
		s.Timers = append(s.Timers, t)
	}
}

// timers are the clocks of the steps, and how long each step takes.
func (b *brew) timers(day *Day) {
	at := 0.0
	for i := range day.Steps {
		s := &day.Steps[i]
		zero := b.timed(s)
		s.BeginsMin = at
		for j := range s.Events {
			e := &s.Events[j]
			switch e.Clock {
			case SinceMashIn:
				e.DayMin = at + e.At.Value
			case leftToBoil:
				e.DayMin = at + zero + b.d.Boil.Minutes - e.At.Value
			case SincePitch:
				e.DayMin = at + 60*e.At.Value
			}
		}
		switch s.Key {
		case Ferment, Honey, Packaging: // these are counted from pitching
		default:
			at += s.TakesMin
		}
	}
}

// timed gives one step its timers and its length; zero is when in it the boil's
// own minutes begin.
func (b *brew) timed(s *Step) (zero float64) {
	p, kit := &b.plan, b.d.Kit
	switch s.Key {
	case Crush:
		s.TakesMin = crushTakesMin
	case Liquor:
		s.TakesMin = drawTakesMin + b.heatingLiquor()
	case MashIn:
		s.TakesMin = minPerPortion * b.portions()
		s.timer(Timer{ID: "bed", Minutes: restBeforePumpMin, Name: message.New("The bed settles"), Over: message.New("Pump on, slowly at first"), Place: 2})
	case Rests:
		s.TakesMin = b.restTimers(s)
	case Sparge:
		pour := p.Sparge / spargePaceLPerMin
		s.TakesMin = liftTakesMin + pour
		s.timer(Timer{ID: "sparge", Minutes: pour, Name: message.New("Sparge"), Over: message.New("All should be poured over by now"), Place: 1})
	case Boil:
		zero = water.HeatingMinutes(p.PreBoilLiquid.VolumeL(), 0, kit.VesselHeatKJPerK, b.beforeBoilC(), p.BoilingPointC, kit.HeaterW)
		s.TakesMin = zero + b.d.Boil.Minutes
		var calls []Call
		for _, e := range s.Events {
			calls = append(calls, Call{e.At.Value, e.What, e.Amount})
		}
		s.timer(Timer{ID: "boil", Minutes: b.d.Boil.Minutes, Key: "boil.minutes", Name: message.New("Boil"), Over: message.New("Heater off"), Calls: calls})
	case Whirlpool:
		s.TakesMin = b.d.Boil.WhirlpoolMinutes + b.d.Boil.StandMinutes
		s.timer(Timer{ID: "stir", Minutes: b.d.Boil.WhirlpoolMinutes, Key: "boil.whirlpool_minutes", Name: message.New("Stir"), Over: message.New("Stop stirring: let it stand")})
		s.timer(Timer{ID: "stand", Minutes: b.d.Boil.StandMinutes, Key: "boil.stand_minutes", Name: message.New("Stand"), Over: message.New("Run off")})
	case RunOff:
		chiller, _ := b.chiller()
		s.TakesMin = chiller.RunOffMinutes(p.IntoFermenter + p.LeftInChillerL)
		s.timer(Timer{ID: "run-off", Minutes: s.TakesMin, Name: message.New("Run-off through the chiller"), Over: message.New("All should have run off by now"), Place: 1})
	case Pitching:
		s.TakesMin = pitchTakesMin
		s.timer(Timer{ID: "shake", Minutes: shakeMin, Name: message.New("Shake or splash"), Over: message.New("Enough air"), Place: len(s.Do) - 1})
	}
	if !finite(s.TakesMin) {
		s.TakesMin = 0
	}
	return zero
}

// restTimers are a timer for each rest; it gives the minutes of all, with the
// heating between them.
func (b *brew) restTimers(s *Step) float64 {
	all, at := 0.0, 0.0
	for i, r := range b.d.Mash.Rest {
		if i > 0 {
			all += b.heatingMash(at, r.TemperatureC)
		}
		s.timer(Timer{ID: "rest." + strconv.Itoa(i), Minutes: r.Minutes, Key: path("mash.rest", i) + ".minutes", Name: message.New("Rest at {temperature}", celsius(r.TemperatureC)), Over: message.New("The rest is over")})
		all, at = all+r.Minutes, r.TemperatureC
	}
	return all
}

// heatingMash is how long the heater takes from one temperature of the mash to
// another, minutes.
func (b *brew) heatingMash(fromC, toC float64) float64 {
	return water.HeatingMinutes(b.plan.MashLiquor, b.plan.GrainKg, b.d.Kit.VesselHeatKJPerK, fromC, toC, b.d.Kit.HeaterW)
}

// heatingLiquor is how long the liquor takes to its strike temperature, minutes.
func (b *brew) heatingLiquor() float64 {
	return water.HeatingMinutes(b.plan.MashLiquor, 0, b.d.Kit.VesselHeatKJPerK, b.d.Kit.TapC, b.plan.StrikeTemperatureC, b.d.Kit.HeaterW)
}

// beforeBoilC is what the wort has when it is brought to the boil.
func (b *brew) beforeBoilC() float64 {
	from := spargeC
	if n := len(b.d.Mash.Rest); n > 0 {
		from = math.Min(from, b.d.Mash.Rest[n-1].TemperatureC)
	}
	return from
}

// portions are those in which the grain is stirred in.
func (b *brew) portions() float64 { return math.Max(2, math.Ceil(b.plan.GrainKg/portionKg)) }
