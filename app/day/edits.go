package day

import (
	"slices"
	"strconv"

	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/running"
)

// apply gives a design some values. A value out of its key's range goes to its end.
func apply(d *design.Design, settings []brewday.Setting) error {
	for _, s := range settings {
		v := s.Value
		if k, ok := design.KeyOf(s.Key); ok && k.Max > k.Min {
			v = min(max(v, k.Min), k.Max)
		}
		if err := d.Set(s.Key, strconv.FormatFloat(v, 'f', -1, 64)); err != nil {
			return err
		}
	}
	return nil
}

// edit alters the design as one step of undo, and counts it for the day's own undo.
func (d *Day) edit(step string, alter func(*design.Design)) bool {
	if err := d.host.Edit(step, alter); err != nil {
		d.host.Warn(d.host.Say().Why(err))
		d.message = d.host.Say().Why(err)
		return false
	}
	if n := len(d.undo); n > 0 {
		d.undo[n-1].edits++
	}
	return true
}

// set gives the design values of the day, and remembers them.
func (d *Day) set(step string, settings ...brewday.Setting) {
	if len(settings) == 0 {
		return
	}
	d.state.Set(settings...)
	d.edit(step, func(to *design.Design) { _ = apply(to, settings) })
}

// without takes the readings of a kind that the day made out of a design.
func without(to *design.Design, m running.Measured) {
	to.Reading = slices.DeleteFunc(to.Reading, func(r design.Reading) bool { return sameReading(&r, &m) })
}

func sameReading(r *design.Reading, m *running.Measured) bool {
	made := m.Reading()
	return r.What == made.What && r.At.Equal(made.At) && r.Value == made.Value
}

// mend brings a design that was opened anew to where the day is: a window that was
// killed may have lost what was not saved.
func (d *Day) mend() {
	now := d.host.Design()
	var lost []running.Measured
	for _, m := range d.state.Measured {
		if !slices.ContainsFunc(now.Reading, func(r design.Reading) bool { return sameReading(&r, &m) }) {
			lost = append(lost, m)
		}
	}
	changed := now.Clone()
	if apply(&changed, d.state.Settings) != nil || len(lost) == 0 && changed.Equal(now) {
		return
	}
	d.edit(words.T("what the brew day has measured"), func(to *design.Design) {
		_ = apply(to, d.state.Settings)
		for _, m := range lost {
			to.Reading = append(to.Reading, m.Reading())
		}
	})
}
