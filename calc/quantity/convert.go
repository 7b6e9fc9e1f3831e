package quantity

const ouncesPerPound = 16

// unit is how the person has a kind written.
func (f Formatter) unit(k Kind) *unit {
	r := &kinds[k]
	if r.chosen != nil && r.chosen(f.units) {
		return &r.other
	}
	return &r.metric
}

// Shown turns a metric value into the number in the person's unit, unrounded:
// what axes are scaled by. A mass is in the unit that [Formatter.Unit] names.
func (f Formatter) Shown(k Kind, metric float64) float64 {
	if k < Kinds {
		if u := f.unit(k); u.shown != nil {
			return u.shown(metric)
		}
	}
	return metric
}

// Metric is the inverse of Shown.
func (f Formatter) Metric(k Kind, shown float64) float64 {
	if k < Kinds {
		if u := f.unit(k); u.metric != nil {
			return u.metric(shown)
		}
	}
	return shown
}
