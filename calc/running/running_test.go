package running_test

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"testing"
	"time"

	"skep/assets/demotest"

	"pgregory.net/rapid"

	"skep/assets"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/running"
)

func demo(t testing.TB) (design.Design, calc.Prediction, brewday.Day) {
	t.Helper()
	d := demotest.Design(t, assets.DemoMiddle)
	p, err := calc.NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	return d, p, brewday.Plan(d, p)
}

// nine is nine in the morning of a day on which clocks are set back in Europe.
var nine = time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC)

func step(t testing.TB, day *brewday.Day, key brewday.Key) *brewday.Step {
	t.Helper()
	s, ok := day.Step(key)
	if !ok {
		t.Fatalf("no step %s", key)
	}
	return s
}

// kill writes a state down and reads it again, as a window that dies and is opened.
func kill(t interface{ Fatal(...any) }, s *running.State) {
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var back running.State
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	if again, _ := json.Marshal(back); string(again) != string(text) {
		t.Fatal("comes back as ", string(again), " not ", string(text))
	}
	*s = back
}

// TestRingsOfTheBoil: the boil of the demonstration calls for the chiller at 15
// minutes left and for its end, at the true minutes, with a rest's clock beside it;
// the hour of the change of the clocks lies within.
func TestRingsOfTheBoil(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	s := running.Begin("Gate Field", "", &day, nine)
	boil, rests := step(t, &day, brewday.Boil), step(t, &day, brewday.Rests)
	s.Start(brewday.Boil, &boil.Timers[0], nine)
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip("no time zones here: ", err)
	}
	var got []string
	for at := nine; at.Before(nine.Add(2 * time.Hour)); at = at.Add(time.Second) {
		if at.Equal(nine.Add(5 * time.Minute)) {
			s.Start(brewday.Rests, &rests.Timers[0], at)
		}
		for _, r := range s.Due(&day, at.In(berlin)) {
			got = append(got, fmt.Sprint(r.Timer, " ", r.What.Text, " ", at.Sub(nine)))
		}
	}
	want := []string{
		"boil Boiling wort through the chiller and back, to sanitise it 45m0s",
		"boil  1h0m0s",
		"rest.0  1h5m0s",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	// The boil goes on until it is ended, and what it took is what is kept.
	if real := s.End("boil", nine.Add(2*time.Hour)); real != 120 {
		t.Errorf("%v minutes", real)
	}
}

// TestAnyDayRingsTheSame: whatever is done to the clocks, and however often the
// window is killed, the computer suspended or the wall clock set back, each call
// comes once, and never before its minutes have truly passed, nor later than the
// longest time in which nobody looked.
func TestAnyDayRingsTheSame(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	boil := step(t, &day, brewday.Boil)
	timer := &boil.Timers[0]
	rapid.Check(t, func(t *rapid.T) {
		truth, wall := nine, nine // what a wrist watch shows, and the computer
		s := running.Begin("x", "", &day, wall)
		s.Start(brewday.Boil, timer, wall)
		begun, heldFor, length := truth, time.Duration(0), timer.Minutes
		unseen := time.Duration(0) // between two looks at which the clock was set back
		rung := map[string]int{}
		look := func(gap time.Duration) {
			for _, r := range s.Due(&day, wall) {
				rung[r.What.Text]++
				left := 0.0
				for _, c := range timer.Calls {
					if c.What.Text == r.What.Text {
						left = c.LeftMin
					}
				}
				due := begun.Add(heldFor + time.Duration((length-left)*float64(time.Minute)))
				late := truth.Sub(due)
				if late < -time.Millisecond || late > gap+unseen+time.Second {
					t.Fatalf("%q is %v late, nobody looked for %v", r.What.Text, late, gap)
				}
			}
		}
		for range rapid.IntRange(1, 60).Draw(t, "things that happen") {
			gap := time.Second * time.Duration(rapid.IntRange(1, 300).Draw(t, "seconds"))
			switch rapid.SampledFrom([]string{"wait", "suspend", "kill", "set back", "hold", "zone"}).Draw(t, "what") {
			case "wait", "suspend": // to instants they are the same
				truth, wall = truth.Add(gap), wall.Add(gap)
			case "kill":
				kill(t, &s)
				truth, wall = truth.Add(gap), wall.Add(gap)
			case "set back":
				s.Meet(wall)
				back := time.Minute * time.Duration(rapid.IntRange(5, 90).Draw(t, "minutes back"))
				truth, wall = truth.Add(time.Second), wall.Add(time.Second-back)
				unseen += time.Second
				gap = time.Second
			case "hold":
				look(0)
				s.Hold("boil", wall)
				truth, wall = truth.Add(gap), wall.Add(gap)
				if got := s.Due(&day, wall); len(got) > 0 {
					t.Fatalf("rings while it is held: %+v", got)
				}
				s.Hold("boil", wall)
				heldFor += gap
				gap = 0
			case "zone":
				wall = wall.In(time.FixedZone("", 3600*rapid.IntRange(-12, 14).Draw(t, "hours")))
			}
			look(gap)
		}
		wall = wall.Add(3 * time.Hour)
		truth = truth.Add(3 * time.Hour)
		look(3 * time.Hour)
		for _, c := range timer.Calls {
			if n := rung[c.What.Text]; c.LeftMin > 0 && c.LeftMin < timer.Minutes && n != 1 {
				t.Fatalf("%q rang %d times", c.What.Text, n)
			}
		}
		if rung[""] != 1 {
			t.Fatalf("the end rang %d times", rung[""])
		}
	})
}

// A computer's clock that is set a day ahead and right again costs the day nothing: the
// rest goes on as it was and calls when it is over, once.
func TestAClockSetAheadAndRightAgain(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	boil := step(t, &day, brewday.Boil)
	s := running.Begin("x", "", &day, nine)
	s.Start(brewday.Boil, &boil.Timers[0], nine)
	at := func(min float64) time.Time { return nine.Add(time.Duration(min * float64(time.Minute))) }
	for sec := 0.0; sec < 600; sec++ {
		s.Due(&day, at(sec/60))
	}
	s.Due(&day, at(10).Add(24*time.Hour)) // all of it calls, as after a sleep
	kill(t, &s)
	if back := s.Meet(at(10.02)); back < 23*time.Hour {
		t.Errorf("set back by %v", back)
	}
	if left := s.Clock("boil").Left(at(10.02)); !s.Clock("boil").Running() || left.Round(time.Minute) != 50*time.Minute {
		t.Errorf("after ten minutes of sixty it has %v left, running %v", left, s.Clock("boil").Running())
	}
	ends := 0
	for min := 10.1; min < 70; min++ {
		for _, r := range s.Due(&day, at(min)) {
			if r.What.Text == "" {
				ends++
				if min < 60 {
					t.Errorf("the end calls after %v minutes", min)
				}
			}
		}
	}
	if ends != 1 {
		t.Errorf("the end called %d times", ends)
	}
}

// What is started and held while the computer's clock is ahead goes on when it is right
// again, as a wrist watch has it.
func TestStartedWhileTheClockIsAhead(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	rests, boil := step(t, &day, brewday.Rests), step(t, &day, brewday.Boil)
	s := running.Begin("x", "", &day, nine)
	at := func(min float64) time.Time { return nine.Add(time.Duration(min * float64(time.Minute))) }
	ahead := 24 * time.Hour
	s.Start(brewday.Rests, &rests.Timers[0], at(0))
	s.Due(&day, at(1))
	s.Meet(at(1).Add(ahead))
	s.Hold("rest.0", at(2).Add(ahead))
	s.Start(brewday.Boil, &boil.Timers[0], at(3).Add(ahead))
	s.Meet(at(5).Add(ahead)) // it is looked at each second
	s.Meet(at(5))
	if left := s.Clock("boil").Left(at(5)); left != 58*time.Minute {
		t.Errorf("two minutes after its start the boil has %v left", left)
	}
	if left := s.Clock("rest.0").Left(at(5)); left != 58*time.Minute || !s.Clock("rest.0").IsHeld() {
		t.Errorf("held after two minutes the rest has %v left", left)
	}
}

// TestClock: held, moved and ended early, by hand.
func TestClock(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	rests := step(t, &day, brewday.Rests)
	s := running.Begin("x", "", &day, nine)
	at := func(min float64) time.Time { return nine.Add(time.Duration(min * float64(time.Minute))) }
	s.Start(brewday.Rests, &rests.Timers[0], at(0))
	s.Hold("rest.0", at(10))
	if left := s.Clock("rest.0").Left(at(25)); left != 50*time.Minute {
		t.Errorf("held it has %v left", left)
	}
	s.Hold("rest.0", at(30)) // twenty minutes stood still
	if end, ok := s.Clock("rest.0").EndsAt(); !ok || !end.Equal(at(80)) {
		t.Errorf("it ends at %v", end)
	}
	s.Shift("rest.0", 15, at(40))
	if end, _ := s.Clock("rest.0").EndsAt(); !end.Equal(at(95)) {
		t.Errorf("moved it ends at %v", end)
	}
	if real := s.End("rest.0", at(85)); real != 65 {
		t.Errorf("it ran %v minutes, want 65", real)
	}
	if left := s.Clock("rest.0").Left(at(500)); left != 10*time.Minute {
		t.Errorf("ended it goes on: %v", left)
	}
	// A longer boil in the plan makes the boil that runs longer, and rings again.
	d, p, _ := demo(t)
	boil := step(t, &day, brewday.Boil)
	s.Start(brewday.Boil, &boil.Timers[0], at(100))
	if n := len(s.Due(&day, at(161))); n != 2 {
		t.Errorf("%d calls", n)
	}
	d.Boil.Minutes += 10
	longer := brewday.Plan(d, p)
	s.Follow(&longer)
	if end, _ := s.Clock("boil").EndsAt(); !end.Equal(at(170)) {
		t.Errorf("the boil ends at %v", end)
	}
	due := s.Due(&longer, at(171))
	if len(due) != 1 || !due[0].What.Empty() {
		t.Errorf("after it was made longer: %+v", due)
	}
}

// TestItems: the items of every step are done one after the other by what a Space
// does, and no clock that still runs is ended by it.
func TestItems(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	s := running.Begin("x", "", &day, nine)
	now := nine
	seen := map[string]bool{}
	kinds := map[running.Kind]int{}
	for _, st := range running.Steps(&day) {
		for guard := 0; ; guard++ {
			items := running.Items(st)
			n := s.NextItem(items)
			if n < 0 {
				break
			}
			i := &items[n]
			if seen[i.ID] && i.Kind != running.Stop || guard > 200 {
				t.Fatalf("%s again", i.ID)
			}
			seen[i.ID] = true
			kinds[i.Kind]++
			switch i.Kind {
			case running.Start:
				s.Start(st.Key, i.Timer, now)
			case running.Stop:
				if s.Ready(i, now) {
					t.Fatalf("%s ends a clock that has %v left", i.ID, s.Clock(i.Timer.ID).Left(now))
				}
				now = now.Add(time.Duration(i.Timer.Minutes * float64(time.Minute)))
				s.Due(&day, now)
				if !s.Ready(i, now) {
					t.Fatalf("%s can't be ended when it is over", i.ID)
				}
				s.End(i.Timer.ID, now)
			case running.Measure:
				s.Write(running.Measured{What: i.Blank.What, Value: i.Blank.Expect.Value, At: now})
			default:
				s.Tick(i.ID)
			}
		}
	}
	for kind, least := range map[running.Kind]int{running.Tick: 10, running.Add: 3, running.Start: 8, running.Stop: 4, running.Measure: 9} {
		if kinds[kind] < least {
			t.Errorf("%d items of kind %d, want %d", kinds[kind], kind, least)
		}
	}
	m := s.Readings()
	if math.IsNaN(m.StrikeC + m.MashC + m.PreBoilL + m.PreBoilSG + m.PostBoilL + m.PostBoilSG + m.FermenterL + m.OriginalSG + m.PitchC) {
		t.Errorf("not all is measured: %+v", m)
	}
}

// TestEveryEventIsAnItem: what stands on a step's time line stands among its items,
// by a clock or by a tick, so that the day forgets nothing that paper says.
func TestEveryEventIsAnItem(t *testing.T) {
	t.Parallel()
	d, p, _ := demo(t)
	d.Mash.Rest = []design.Rest{{TemperatureC: 55, Minutes: 10}, {TemperatureC: 66, Minutes: 45}, {TemperatureC: 72, Minutes: 15}}
	d.Hop = append(d.Hop, design.Hop{Name: "Late", AlphaPct: 5, MassG: 10, When: design.HopBoil, Minutes: 10})
	day := brewday.Plan(d, p)
	for _, st := range running.Steps(&day) {
		items := running.Items(st)
		has := func(text string) bool {
			for _, i := range items {
				if i.Text.Text == text || i.Timer != nil && i.Timer.Over.Text == text {
					return true
				}
			}
			return false
		}
		for _, e := range st.Events {
			switch {
			case has(e.What.Text):
			case e.Timer == "boil" && e.At.Value == d.Boil.Minutes: // starts the clock
			case e.Timer != "" && e.Clock == brewday.SinceMashIn: // is one
			default:
				t.Errorf("%s: nothing says %q", st.Key, e.What.Text)
			}
		}
		if got, want := count(items, running.Tick), len(st.Do); got < want {
			t.Errorf("%s: %d ticks for %d things to do", st.Key, got, want)
		}
		if st.Key == brewday.Rests && (count(items, running.Start) != 3 || count(items, running.Stop) != 3) {
			t.Errorf("three rests: %+v", items)
		}
	}
}

// TestMeasuredWhenTheClocksHaveRun: what is measured after the boil comes after its
// clock, also where the boil has nothing to do beside it (a short one, one hop).
func TestMeasuredWhenTheClocksHaveRun(t *testing.T) {
	t.Parallel()
	d, p, _ := demo(t)
	d.Boil.Minutes = 30
	d.Hop = d.Hop[:1]
	d.Hop[0].Minutes = 30
	day := brewday.Plan(d, p)
	items := running.Items(step(t, &day, brewday.Boil))
	started := false
	for i := range items {
		started = started || items[i].Kind == running.Start
		if items[i].Kind == running.Measure && !started {
			t.Errorf("%s comes before the boil", items[i].ID)
		}
	}
	if !started || items[len(items)-1].Kind != running.Measure {
		t.Errorf("the boil is %+v", items)
	}
	// The yeast goes in when the gravity is read and the wort has its air.
	last := running.Add
	for _, i := range running.Items(step(t, &day, brewday.Pitching)) {
		if (i.Kind == running.Measure || i.Kind == running.Start) && last != running.Add {
			t.Errorf("%s comes when the yeast is in", i.ID)
		}
		if i.Kind == running.Add {
			last = running.Tick
		}
	}
	if last == running.Add {
		t.Error("no yeast goes in")
	}
}

func count(items []running.Item, k running.Kind) (n int) {
	for _, i := range items {
		if i.Kind == k {
			n++
		}
	}
	return n
}

// TestReadings: a warm sample by hydrometer and one by refractometer are compared as
// they would be at 20 °C.
func TestReadings(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	s := running.Begin("x", "", &day, nine)
	s.Write(running.Measured{What: "pre-boil-gravity", Value: 1.033, TemperatureC: 40, Instrument: "hydrometer", At: nine})
	s.Write(running.Measured{What: "original-gravity", Value: 10, TemperatureC: 20, Instrument: "refractometer", At: nine})
	m := s.Readings()
	// At 40 °C a hydrometer made for 20 °C shows some 6 points too little.
	if m.PreBoilSG < 1.037 || m.PreBoilSG > 1.041 {
		t.Errorf("warm sample: %v", m.PreBoilSG)
	}
	// 10 °Bx over a factor of 1.04 or none: 1.038 to 1.040.
	if m.OriginalSG < 1.0375 || m.OriginalSG > 1.0405 {
		t.Errorf("refractometer: %v", m.OriginalSG)
	}
	if got := s.Measured[0].Reading(); got.What != "pre-boil-gravity" || got.TemperatureC != 40 {
		t.Errorf("as a reading: %+v", got)
	}
}

// A measurement that was passed over is not what the next number is for; once nothing
// else is to come, it can still be given.
func TestWhatATypedNumberIsFor(t *testing.T) {
	t.Parallel()
	_, _, day := demo(t)
	s := running.Begin("x", "", &day, nine)
	items := running.Items(step(t, &day, brewday.MashIn))
	var measures []int
	for n := range items {
		if items[n].Kind == running.Measure {
			measures = append(measures, n)
		}
	}
	if len(measures) != 2 {
		t.Fatalf("%d measurements at mashing in", len(measures))
	}
	asked := func(want int) {
		t.Helper()
		if got := s.ToMeasure(items); got != want {
			t.Errorf("a number is taken for item %d, not %d", got, want)
		}
	}
	asked(measures[0])
	s.Tick(items[measures[0]].ID) // passed over
	asked(measures[1])
	s.Write(running.Measured{What: items[measures[1]].Blank.What, Value: 66, At: nine})
	asked(measures[0])
	s.Write(running.Measured{What: items[measures[0]].Blank.What, Value: 72, At: nine})
	asked(-1)
}
