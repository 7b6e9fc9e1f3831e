// Package cubic makes a smooth function quick that is asked for thousands of times in
// each frame.
//
// A function and its slope come in; out comes the same function as cubics between even
// places, which touch it there in value and slope. It must not know what the function
// is: whoever makes a table shows in a test how near it is.
package cubic

import "sync/atomic"

// Table is a function between two bounds.
type Table struct {
	low, per float64
	pieces   [][4]float64 // by powers of the share of the way from place to place
}

// New makes a table from low to high, which is a whole number of steps above it.
func New(low, high, step float64, f func(x float64) (value, slope float64)) *Table {
	n := int((high-low)/step + 0.5)
	t := &Table{low: low, per: 1 / step, pieces: make([][4]float64, n)}
	v0, s0 := f(low)
	for i := range t.pieces {
		v1, s1 := f(low + float64(i+1)*step)
		d, from, to := v1-v0, s0*step, s1*step
		t.pieces[i] = [4]float64{v0, from, 3*d - 2*from - to, from + to - 2*d}
		v0, s0 = v1, s1
	}
	return t
}

// Lazy is a table that is made when it is first asked for: the same one, whoever asks.
type Lazy struct {
	made atomic.Pointer[Table]
	make func() *Table
}

// Later is the table that make will make.
func Later(make func() *Table) *Lazy { return &Lazy{make: make} }

// Table costs no more than a load once it is made, which a call would.
func (l *Lazy) Table() *Table {
	if t := l.made.Load(); t != nil {
		return t
	}
	return l.first()
}

func (l *Lazy) first() *Table {
	l.made.CompareAndSwap(nil, l.make())
	return l.made.Load()
}

// At is the function at a place between the bounds.
func (t *Table) At(x float64) float64 {
	u := (x - t.low) * t.per
	i := min(int(u), len(t.pieces)-1)
	u -= float64(i)
	p := &t.pieces[i]
	return p[0] + u*(p[1]+u*(p[2]+u*p[3]))
}
