package lever

import "skep/calc/message"

// Lever is one value on a track. Make one with [New]. What Fyne's slider lacks stands in
// the package comment.
type Lever struct {
	Rail

	// Format writes a value, with its unit.
	Format func(value float64) string
	// Parse reads what a person typed and says how it read it; its error is
	// shown. Nil: the value can't be typed.
	Parse func(text string) (value float64, echo string, err error)

	// OnChanged comes at every move a person makes.
	OnChanged func(value float64)
	// OnCommitted comes when the gesture is over, if the value differs from
	// the one before it.
	OnCommitted func(value float64)
}

// New makes a lever at a value.
func New(name string, scale Scale, value float64, format func(float64) string) *Lever {
	l := &Lever{Format: format}
	l.Name, l.Scale = name, scale
	l.self = l
	l.values = []float64{scale.Clamp(value)}
	l.format = func(v []float64) string {
		if l.Format == nil {
			return ""
		}
		return l.Format(v[0])
	}
	l.parse = l.read
	l.changed = func() {
		if l.OnChanged != nil {
			l.OnChanged(l.values[0])
		}
	}
	l.committed = func() {
		if l.OnCommitted != nil {
			l.OnCommitted(l.values[0])
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// Value is where the lever stands.
func (l *Lever) Value() float64 { return l.values[0] }

// SetValue is the programme's way: it tells nobody. A value outside the range
// or between steps is kept and shown as it is, the handle at the nearest place.
func (l *Lever) SetValue(value float64) { l.set(value) }

// SetDefault says where a reset goes.
func (l *Lever) SetDefault(value float64) {
	l.resets = []float64{l.Scale.Clamp(value)}
	l.replace()
}

func (l *Lever) read(text string) ([]float64, string, error) {
	if l.Parse == nil {
		return nil, "", message.NewError("this value can't be typed")
	}
	v, echo, err := l.Parse(text)
	if err != nil {
		return nil, "", err
	}
	if err := l.inRange(v); err != nil {
		return nil, "", err
	}
	return []float64{v}, echo, nil
}

// inRange is the last guard behind Parse.
func (r *Rail) inRange(v float64) error {
	if v >= r.Scale.Min && v <= r.Scale.Max { // false for NaN
		return nil
	}
	return message.NewError("that is outside {low} to {high}",
		r.format([]float64{r.Scale.Min, r.Scale.Min}), r.format([]float64{r.Scale.Max, r.Scale.Max}))
}
