package lever

import (
	"math"

	"skep/calc/design"
)

// The levers' range of the mash rest, °C: the pictures are drawn over it.
const (
	RestLowC  = 58.0
	RestHighC = 72.0
)

// Setting is where the levers of taste stand. Everything else of a design is
// as it is.
type Setting struct {
	RestC              float64 // °C, of the chosen rest
	Minutes            float64 // of the chosen rest
	AttenuationLowPct  float64 // apparent, on the reference wort
	AttenuationHighPct float64
	YeastC             float64 // °C, of the fermentation
	HoneyKg            float64 // of the chosen honey
	Moment             string  // of the chosen honey
	HoursAfterHeight   float64 // of the chosen honey, where its moment is while the beer ferments
	GrainShare         float64 // of the grist as the design has it; 1 leaves it
}

// SettingOf is where the levers of a design's own yeast stand, with one of its
// rests and one of its honeys chosen, counted from 0. With a honey of -1 the
// design has none, and the setting is that of no honey at the usual moment.
func SettingOf(d *design.Design, rest, honey int) Setting {
	r, y := d.Mash.Rest[rest], d.Yeast[0]
	s := Setting{
		RestC: r.TemperatureC, Minutes: r.Minutes,
		AttenuationLowPct: y.AttenuationLowPct, AttenuationHighPct: y.AttenuationHighPct, YeastC: y.TemperatureC,
		GrainShare: 1,
	}
	h := design.Honey{Moment: design.MomentFermenting}
	if honey >= 0 {
		h = d.Honey[honey]
	}
	s.HoneyKg, s.Moment, s.HoursAfterHeight = h.MassKg, h.Moment, h.HoursAfterHeight
	return s
}

// Into moves the levers of a design, whose grist is the one that GrainShare is
// counted from. Its lists are written to: give it a clone.
func (s *Setting) Into(d *design.Design, rest, honey int) {
	d.Mash.Rest[rest] = design.Rest{TemperatureC: s.RestC, Minutes: s.Minutes}
	y := &d.Yeast[0]
	y.AttenuationLowPct, y.AttenuationHighPct, y.TemperatureC = s.AttenuationLowPct, s.AttenuationHighPct, s.YeastC
	if honey >= 0 {
		h := &d.Honey[honey]
		h.MassKg, h.Moment, h.HoursAfterHeight = s.HoneyKg, s.Moment, s.HoursAfterHeight
	}
	for i := range d.Grain {
		d.Grain[i].MassKg *= s.GrainShare
	}
}

// NotFinite names the first field that is no finite number; "" where all are.
func (s *Setting) NotFinite() string {
	for _, f := range []struct {
		name string
		x    float64
	}{
		{"the rest's temperature", s.RestC}, {"the rest's length", s.Minutes},
		{"the low attenuation", s.AttenuationLowPct}, {"the high attenuation", s.AttenuationHighPct},
		{"the yeast's temperature", s.YeastC}, {"the mass of honey", s.HoneyKg},
		{"the honey's hours", s.HoursAfterHeight}, {"the grist's share", s.GrainShare},
	} {
		if math.IsNaN(f.x) || math.IsInf(f.x, 0) {
			return f.name
		}
	}
	return ""
}
