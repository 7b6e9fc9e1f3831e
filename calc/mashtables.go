package calc

import (
	"fmt"
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/sugar"
)

// The step of the table over the rest's temperature; interpolation between
// its nodes errs by less than the third digit of an index (see
// TestMashTableIsFineEnough).
const tableStepC = 2.0 / 3

// mashTables is the outcome of the mash over the temperature of one rest, the
// grist and the other rests as they are.
type mashTables struct {
	*mash.Erring
	shiftC float64 // the mash is warmer than set, the other rests in the tables already
}

// mashCell is what the mash gives one draw at one temperature.
type mashCell struct {
	wort       sugar.Spectrum // shares of extract
	conversion float64
}

// mashed is the mash of one draw at a set temperature of the rest, from which all rests
// are off by an error.
func (b *Brew) mashed(c *mashCell, tempC, errorC float64, malt mash.Doubt) {
	if b.mash == nil {
		*c = mashCell{}
		return
	}
	c.conversion = b.mash.Into(&c.wort, tempC+b.mash.shiftC, errorC, malt)
}

// keptMash is a mash that was tabulated, by what it depends on.
type keptMash struct {
	key    string
	tables *mashTables
	notes  []message.Message
}

// lastingMash is the mash that was tabulated last, whose last rest may be asked for in
// another length.
type lastingMash struct {
	key     string        // what it depends on beside that length
	lengths *mash.Lengths // nil: no other length was asked for
}

// tabulate tabulates a mash. As soon as another length of the last rest is wanted, the
// mash is followed to the longest that its lever has, and each length costs little.
func (l *lastingMash) tabulate(d *design.Design, in mash.Input, rest int, low, high float64) (*mash.Erring, error) {
	last := len(in.Rests) - 1
	minutes := in.Rests[last].Minutes
	of := in
	of.Rests = slices.Clone(in.Rests)
	of.Rests[last].Minutes, of.Rests[rest].TemperatureC = 0, 0
	if key := fmt.Sprintf("%v %d %v %v", of, rest, low, high); key != l.key {
		*l = lastingMash{key: key}
		return mash.TabulateErring(in, rest, low, high, tableStepC)
	}
	if l.lengths == nil || l.lengths.LongestMin() < minutes {
		_, longest := lever.Minutes.Limits(d, lever.At{Rest: last}.In(d))
		var err error
		if l.lengths, err = mash.Follow(in, rest, low, high, tableStepC, longest); err != nil {
			l.lengths = nil
			return nil, err
		}
	}
	return l.lengths.Erring(minutes)
}

// mostMashesKept is as many as a lever of minutes soon comes back to; each takes
// four kilobytes.
const mostMashesKept = 100

// tables gives the mash of a design over the temperature of one rest, from
// what was computed before if the mash is the same.
func (e *Engine) tables(d design.Design, rest int) (*mashTables, []message.Message, error) {
	shift := e.doubts.RestShiftC
	in := recipe.MashInput(d, shift)
	for i, read := range e.logged.RestRead {
		if read && i < len(in.Rests) { // as it was, not as it was set
			in.Rests[i].TemperatureC -= shift
		}
	}
	if rest < len(e.logged.RestRead) && e.logged.RestRead[rest] {
		shift = 0
	}
	t := in.Rests[rest].TemperatureC
	in.Rests[rest].TemperatureC = 0 // the axis: not part of what is tabulated
	reach := 3 * d.Kit.RestErrorC
	low := math.Floor(max(20, min(t, lever.RestLowC+shift)-reach-1))
	high := math.Ceil(min(100, max(t, lever.RestHighC+shift)+reach+1))
	if e.reachC > 0 {
		low, high = max(20, t-e.reachC), min(100, t+e.reachC)
	}
	key := fmt.Sprintf("%v %d %v %v %v", in, rest, low, high, shift)
	for i := len(e.mashes) - 1; i >= 0; i-- {
		if m := &e.mashes[i]; m.key == key {
			return m.tables, m.notes, nil
		}
	}
	in.Rests[rest].TemperatureC = t

	now, err := mash.Run(in)
	if err != nil {
		return nil, nil, err
	}
	erring, err := e.lasting.tabulate(&d, in, rest, low, high)
	if err != nil {
		return nil, nil, err
	}
	tables := &mashTables{erring, shift}
	if len(e.mashes) >= mostMashesKept {
		e.mashes = slices.Delete(e.mashes, 0, 1)
	}
	e.mashes = append(e.mashes, keptMash{key, tables, now.Warnings})
	return tables, now.Warnings, nil
}
