package follow

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/nextreading"
	"skep/calc/quantity"
)

// What could be measured next, by its published key.
const (
	NextGravity     = "gravity"
	NextForced      = measured.ForcedFerment
	NextBeer        = "beer-temperature"
	NextMoisture    = "honey-moisture"
	NextThermometer = "thermometer-in-ice"
	NextMalt        = "malt-attenuation-limit"
	NextYield       = "mash-efficiency"
	NextGlasses     = "glass-test"
)

// Errors of what could be measured, 1 sd. All are ours.
const (
	forcedSD        = 0.001 // SG: the same yeast in the warm, shaken, against the brew
	beerThermoC     = 0.3   // a thermometer in the beer, and how its mean over the days is guessed
	moistureSD      = 0.3   // points: a honey refractometer
	iceC            = 0.1   // reading a thermometer in melting ice
	thermometerPart = 0.7   // of the variance of kit.rest_error_c: what stays from mash to mash
	maltSD          = 1.5   // points: the certificate's limit attenuation, or a small mash fermented out
	yieldSD         = 1.2   // points: one brew against the kit's own mean
	glassesSD       = 1.95  // of the palate's own sd: twenty pairs of glasses leave 0.89 of it (package glasstest's test)
)

// nextHours are when another gravity could be read, from now.
var nextHours = [...]float64{6, 12, 24, 48}

// nextShown is what the draws would show at those hours, and where they would end
// with what is in now.
type nextShown struct {
	gravity                  [len(nextHours)][]float64
	end                      []float64
	final, strength, dryness []float64
}

func newNextShown(n int) nextShown {
	s := nextShown{end: make([]float64, n), final: make([]float64, n), strength: make([]float64, n), dryness: make([]float64, n)}
	for k := range s.gravity {
		s.gravity[k] = make([]float64, n)
	}
	return s
}

func (s *nextShown) note(i int, x *calc.Draw, nowHours float64) {
	for k, h := range nextHours {
		s.gravity[k][i] = x.GravityAt(nowHours + h)
	}
	s.end[i] = x.EndSG(nowHours)
	s.final[i], s.strength[i], s.dryness[i] = x.Beer.FinalGravitySG, x.Beer.ABVPct, x.Beer.Dryness
}

// rowsOf are the draws of an engine.
func rowsOf(e *calc.Engine) doubt.Draws {
	if rows, _ := e.Measured(); rows != nil {
		return rows
	}
	return e.Own()
}

// columnOfInput is one physical input in every draw.
func columnOfInput(b *calc.Brew, rows doubt.Draws, of func(in *calc.Inputs) float64) []float64 {
	out := make([]float64, len(rows))
	for i := range rows {
		in := b.Inputs(&rows[i])
		out[i] = of(&in)
	}
	return out
}

// lasting are the candidates that tell of things, not of this fermentation.
func lasting(b *calc.Brew, rows doubt.Draws) []nextreading.Candidate {
	var out []nextreading.Candidate
	d := b.Design()
	for i := range d.Honey {
		if d.Honey[i].MassKg > 0 {
			out = append(out, nextreading.Candidate{What: NextMoisture, SD: moistureSD,
				Shows: columnOfInput(b, rows, func(in *calc.Inputs) float64 { return in.MoisturePct })})
			break
		}
	}
	if error := d.Kit.RestErrorC; error > 0 && b.HasGrain() {
		// Ice tells of the thermometer, not of how the mash was kept.
		out = append(out, nextreading.Candidate{What: NextThermometer, SD: math.Hypot(iceC, error*math.Sqrt(thermometerPart*(1-thermometerPart))),
			Shows: columnOfInput(b, rows, func(in *calc.Inputs) float64 { return thermometerPart * in.RestErrorC })})
	}
	return out
}

// qualitiesOf are the four outcomes but body, draw by draw.
func qualitiesOf(finalSG, strengthPct, dryness []float64) []nextreading.Quality {
	return []nextreading.Quality{
		{Key: "final_gravity_sg", Values: finalSG}, {Key: "strength_pct", Values: strengthPct}, {Key: "dryness", Values: dryness},
	}
}

// BeforeBrewing is what could be measured before a design is brewed, the most
// telling first: of the kit, the malt, the honey and the palate.
func BeforeBrewing(e *calc.Engine, d design.Design) ([]nextreading.Worth, error) {
	drawn, err := e.Drawn(d, 0)
	if err != nil {
		return nil, err
	}
	b, err := e.Brew(d, 0)
	if err != nil {
		return nil, err
	}
	rows := rowsOf(e)
	list := lasting(b, rows)
	if b.HasGrain() {
		list = append(list,
			nextreading.Candidate{What: NextMalt, SD: maltSD, Shows: columnOfInput(b, rows, func(in *calc.Inputs) float64 { return in.Malt.AttenuationPoints })},
			nextreading.Candidate{What: NextYield, SD: yieldSD, Shows: columnOfInput(b, rows, func(in *calc.Inputs) float64 { return in.EfficiencyPct })})
	}
	sweet := make([]float64, len(rows))
	for i := range rows {
		sweet[i] = rows[i][doubt.MaltSweet]
	}
	list = append(list, nextreading.Candidate{What: NextGlasses, SD: glassesSD, Shows: sweet})
	return nextreading.Rank(list, qualitiesOf(drawn.Values(calc.FinalGravity), drawn.Values(calc.Strength), drawn.Values(calc.Dryness))), nil
}

// Next is what could be measured now, the most telling first. It is worked out when
// it is asked for first, which takes about a third of the time of [Follower.Follow].
func (b *Batch) Next() []nextreading.Worth {
	if b.next == nil {
		b.next = b.rankNext()
	}
	return b.next
}

func (b *Batch) rankNext() []nextreading.Worth {
	rows, shown := rowsOf(b.Engine), &b.shown
	list := lasting(b.model.brew, rows)
	t := &b.Timeline
	if t.Pitched && len(t.Used(measured.FinalGravity)) == 0 {
		spindle := func(sg []float64) []float64 {
			for i := range sg {
				if i < len(b.evened) { // what was read before has told of the hydrometer
					sg[i] += spindleSD * b.evened[i][iSpindle]
				}
			}
			return sg
		}
		own := hydrometerSD
		if b.evened == nil {
			own = math.Hypot(own, spindleSD)
		}
		for k, h := range nextHours {
			sd := math.Hypot(own, b.modelSD(calc.BandOf(append([]float64(nil), shown.gravity[k]...)).Mid))
			list = append(list, nextreading.Candidate{What: NextGravity, Hours: h, Shows: spindle(shown.gravity[k]), SD: sd})
		}
		if t.Forced() == nil {
			list = append(list, nextreading.Candidate{What: NextForced, Shows: spindle(shown.end), SD: math.Hypot(own, forcedSD)})
		}
	}
	if b.Conditioned.BeerSD == 0 {
		warmer := make([]float64, len(rows))
		for i := range rows {
			warmer[i] = ferment.UsualTemperatureErrorC * rows[i][doubt.BeerTemperature]
		}
		list = append(list, nextreading.Candidate{What: NextBeer, Shows: warmer, SD: beerThermoC})
	}
	qualities := qualitiesOf(shown.final, shown.strength, shown.dryness)
	if len(b.Conditioned.HoneyLeft) > 0 && len(b.times) == len(rows) {
		opens := make([]float64, len(b.times))
		for i := range b.times {
			opens[i] = b.times[i].Window[0]
		}
		if calc.BandOf(append([]float64(nil), opens...)).High > t.NowHours {
			qualities = append(qualities, nextreading.Quality{Key: "honey_moment_hours", Values: opens})
		}
	}
	return bestOfEach(nextreading.Rank(list, qualities))
}

// hydrometerSD is a reading's own error, SG, unless said.
const hydrometerSD = 0.0005

// modelSD is the model's own error of a gravity on the way down, as the likelihood
// has it.
func (b *Batch) modelSD(sg float64) float64 {
	from, to := b.After.EffectiveOriginalGravitySG.Mid, b.After.FinalGravitySG.Mid
	fall := from - to
	if !(fall > 0) {
		return 0
	}
	return fall * ferment.CourseErrs((from-sg)/fall) / heavierSD
}

// bestOfEach keeps of one measurement at several hours the best.
func bestOfEach(all []nextreading.Worth) []nextreading.Worth {
	seen := map[string]bool{}
	out := []nextreading.Worth{}
	for _, w := range all {
		if !seen[w.What] {
			seen[w.What] = true
			out = append(out, w)
		}
	}
	return out
}

// NextText says in one line which measurement would tell most, and by how much.
func NextText(all []nextreading.Worth) message.Message {
	if len(all) == 0 || all[0].Most().Share() < nextreading.Least {
		return message.New("no single measurement would narrow the bands much now")
	}
	most := all[0].Most()
	return message.New("what would tell most: {measurement}; the band of {quality} is expected to narrow by {share}",
		nextName(&all[0]), nextQuality(most.Key), quantity.Of(quantity.Percent, math.Round(100*most.Share())))
}

// NextShort names a measurement in a few words.
func NextShort(w *nextreading.Worth) message.Message {
	switch w.What {
	case NextMalt:
		return message.New("the malt's certificate")
	case NextYield:
		return message.New("one brew's yield")
	case NextThermometer:
		return message.New("the thermometer in ice")
	case NextMoisture:
		return message.New("the honey's moisture")
	case NextGlasses:
		return message.New("the glass test")
	}
	return nextName(w)
}

func nextName(w *nextreading.Worth) message.Message {
	switch w.What {
	case NextGravity:
		return message.New("another gravity reading in {hours}", quantity.Of(quantity.WholeHours, w.Hours))
	case NextForced:
		return message.New("a forced fermentation of a sample, in the warm")
	case NextBeer:
		return message.New("the temperature of the beer itself")
	case NextMoisture:
		return message.New("the honey's moisture, by a refractometer")
	case NextThermometer:
		return message.New("the mash thermometer in melting ice")
	case NextMalt:
		return message.New("the malt's limit attenuation, from its certificate or a small mash fermented out")
	case NextYield:
		return message.New("gravity and litres of one brew on this kit")
	}
	return message.New("twenty pairs in the glass test, in the Ledger")
}

func nextQuality(key string) message.Message {
	switch key {
	case "final_gravity_sg":
		return message.New("final gravity")
	case "strength_pct":
		return message.New("strength")
	case "dryness":
		return message.New("dryness")
	}
	return message.New("the honey moment")
}
