package lever

import (
	"math"

	"skep/calc/message"
)

// TwoHanded is a low and a high value on one track, moved apart or, by the bar
// between them, together. Make one with [NewTwoHanded].
type TwoHanded struct {
	Rail

	// Format writes both values, with their unit.
	Format func(low, high float64) string
	// Parse reads both.
	Parse func(text string) (low, high float64, echo string, err error)

	// OnChanged comes at every move a person makes.
	OnChanged func(low, high float64)
	// OnCommitted comes when the gesture is over, if a value differs from the
	// one before it.
	OnCommitted func(low, high float64)
}

// NewTwoHanded makes a lever with two handles.
func NewTwoHanded(name string, scale Scale, low, high float64, format func(low, high float64) string) *TwoHanded {
	t := &TwoHanded{Format: format}
	t.Name, t.Scale = name, scale
	t.self = t
	low, high = scale.Clamp(low), scale.Clamp(high)
	t.values = []float64{math.Min(low, high), math.Max(low, high)}
	t.active = bothHandles
	t.format = func(v []float64) string {
		if t.Format == nil {
			return ""
		}
		return t.Format(v[0], v[1])
	}
	t.parse = t.read
	t.changed = func() {
		if t.OnChanged != nil {
			t.OnChanged(t.values[0], t.values[1])
		}
	}
	t.committed = func() {
		if t.OnCommitted != nil {
			t.OnCommitted(t.values[0], t.values[1])
		}
	}
	t.ExtendBaseWidget(t)
	return t
}

// Values are where the handles stand.
func (t *TwoHanded) Values() (low, high float64) { return t.values[0], t.values[1] }

// SetValues is the programme's way: it tells nobody.
func (t *TwoHanded) SetValues(low, high float64) {
	t.set(math.Min(low, high), math.Max(low, high))
}

// SetDefaults says where a reset goes.
func (t *TwoHanded) SetDefaults(low, high float64) {
	low, high = t.Scale.Clamp(low), t.Scale.Clamp(high)
	t.resets = []float64{math.Min(low, high), math.Max(low, high)}
	t.replace()
}

func (t *TwoHanded) read(text string) ([]float64, string, error) {
	if t.Parse == nil {
		return nil, "", message.NewError("this value can't be typed")
	}
	low, high, echo, err := t.Parse(text)
	if err != nil {
		return nil, "", err
	}
	low, high = math.Min(low, high), math.Max(low, high)
	for _, v := range []float64{low, high} {
		if err := t.inRange(v); err != nil {
			return nil, "", err
		}
	}
	return []float64{low, high}, echo, nil
}
