package explain

import (
	"math"

	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/honey"
	"skep/calc/message"
	"skep/calc/quantity"
)

// doubtNames are the uncertain inputs in words, with their spread.
var doubtNames = [doubt.Tail]message.Message{
	doubt.Strain:        message.New("strain: where in its attenuation range it lies"),
	doubt.Rest:          message.New("thermometer and control of the mash (kit.rest_error_c)"),
	doubt.Malt:          message.New("malt: how fermentable a wort it gives ({points} points, 1 sd)"),
	doubt.Response:      message.New("how strongly the mash temperature acts"),
	doubt.Efficiency:    message.New("mash efficiency ({points} points, 1 sd)"),
	doubt.HoneyMoisture: message.New("moisture of the honey (1 point, 1 sd)"),
	doubt.HoneySugars:   message.New("what of the honey ferments (0.02, 1 sd)"),
	doubt.MaltSweet:     message.New("how sweet maltose, maltotriose and dextrin taste"),
	doubt.SimpleSweet:   message.New("how sweet glucose and fructose taste, and how full alcohol"),
	doubt.Diastase:      message.New("live enzymes of raw honey"),
	doubt.PalateDryness: message.New("dryness as you taste it: your palate, and one tasting"),
	doubt.PalateBody:    message.New("body as you taste it: your palate, and one tasting"),

	doubt.Rate:            message.New("pace of the yeast (a factor of {factor} either way, 10 to 90 %)"),
	doubt.Lag:             message.New("lag (5 to 31 h about 12.5 at 20 °C, 10 to 90 %)"),
	doubt.BeerTemperature: message.New("temperature of the beer over the days (1 °C, 1 sd)"),
	doubt.Height:          message.New("where on its flat top the height is"),
	doubt.Shape:           message.New("shape of the course (a power of {power} either way, 10 to 90 %)"),
}

// doubted is the middle beer with one input at its 10th and 90th percentile.
type doubted struct {
	name message.Message
	at   func(key string, high bool) (float64, bool)
}

// doubts are the effects of what is not known.
func (x *Explainer) doubts(key string) []Effect {
	if x.doubted == nil {
		x.doubtAll()
	}
	from := x.values[key].band.Mid
	var out []Effect
	for _, d := range x.doubted {
		low, has := d.at(key, false)
		high, _ := d.at(key, true)
		if !has {
			continue
		}
		out = append(out, Effect{Name: d.name, Down: message.New("10th percentile"), Up: message.New("90th percentile"), ByDown: low, ByUp: high, HasDown: true, HasUp: true})
	}
	return sorted(out, from)
}

func (x *Explainer) doubtAll() {
	sd := x.engine.Doubts().Filled(x.yeast + 1)
	clock := sd.Clocks[x.yeast]
	for j, name := range doubtNames {
		switch doubt.Input(j) {
		case doubt.Malt:
			name.With = []any{quantity.Of(quantity.Tenths, sd.MaltSD)}
		case doubt.Efficiency:
			name.With = []any{quantity.Of(quantity.Tenths, sd.EfficiencySD)}
		case doubt.Rate:
			name.With = []any{quantity.Of(quantity.Tenths, math.Pow(ferment.RateSpread, clock.Share))}
		case doubt.Shape:
			name.With = []any{quantity.Of(quantity.Tenths, ferment.ShapeSpread)}
		case doubt.Lag:
			if clock.LagHours != ferment.UsualLagHours || clock.Share != 1 {
				name = message.New("lag (about {hours}, as this kit has taught)", quantity.Of(quantity.Hours, clock.LagHours))
			}
		}
		var values [2]func(string) (float64, bool)
		for side, score := range [2]float64{-doubt.Z90, doubt.Z90} {
			values[side] = x.working.at(doubt.Input(j), score).Value
		}
		x.doubted = append(x.doubted, doubted{name, func(key string, high bool) (float64, bool) {
			mid, has := x.working.Value(key)
			side := 0
			if high {
				side = 1
			}
			v, _ := values[side](key)
			return v - mid, has
		}})
	}
	x.doubtCharacter()
}

// doubtCharacter adds what is not known of the honey's aroma.
func (x *Explainer) doubtCharacter() {
	mid := honey.Character(x.working.character...).Mid
	retained, strength := honey.CharacterDoubts(x.working.character...)
	for _, c := range []struct {
		name message.Message
		of   honey.Index
	}{{message.New("what gas and heat carry off"), retained}, {message.New("how strong in aroma the honey is"), strength}} {
		x.doubted = append(x.doubted, doubted{c.name, func(key string, high bool) (float64, bool) {
			v := c.of.Low
			if high {
				v = c.of.High
			}
			return v - mid, key == "honey_character" && !math.IsNaN(v)
		}})
	}
}
