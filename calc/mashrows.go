package calc

import "skep/calc/parallel"

// mashRows keeps what the mash gives every draw at the temperatures last asked for:
// honey, strain, efficiency and batch leave it alone, and they are the levers that move
// most.
type mashRows struct {
	rows  map[mashKey]*mashRow
	call  int // counts the calls
	new   []*mashRow
	cells [][]mashCell
}

// mashKey is what the mash of the draws hangs on besides the malt.
type mashKey struct {
	table            *mashTables
	tempC, restError float64
}

type mashRow struct {
	tempC float64
	cells []mashCell // by draw
	asked int        // the last call
}

// mostRows is how many are kept, of 16 kilobytes each: of the pictures of two states
// side by side and of what is marked in them; of all that an outline is landed at
// exactly, which stay while the strain or the honey moves.
const mostRows = 64

// forget leaves no row: the malt's doubt is another.
func (m *mashRows) forget() { clear(m.rows) }

// at is what the mash of a brew gives the draws, known without any design, at some
// temperatures: good until the next call.
func (m *mashRows) at(b *Brew, fixed []Inputs, temperaturesC ...float64) [][]mashCell {
	m.call++
	m.new, m.cells = m.new[:0], m.cells[:0]
	for _, t := range temperaturesC {
		key := mashKey{b.mash, t, b.d.Kit.RestErrorC}
		row := m.rows[key]
		if row == nil {
			row = m.room(len(fixed))
			row.tempC = t
			m.rows[key], m.new = row, append(m.new, row)
		}
		row.asked = m.call
		m.cells = append(m.cells, row.cells)
	}
	parallel.Each(workers, len(m.new), func(_, k int) {
		row := m.new[k]
		for i := range fixed {
			b.mashed(&row.cells[i], row.tempC, b.restErrorC(&fixed[i]), fixed[i].Malt)
		}
	})
	return m.cells
}

// room is a row to be filled: that which nobody has asked for the longest, if there
// are many.
func (m *mashRows) room(draws int) *mashRow {
	if m.rows == nil {
		m.rows = map[mashKey]*mashRow{}
	}
	if len(m.rows) >= mostRows {
		var oldest mashKey
		var row *mashRow
		for key, r := range m.rows {
			if r.asked < m.call && (row == nil || r.asked < row.asked) {
				oldest, row = key, r
			}
		}
		if row != nil {
			delete(m.rows, oldest)
			return row
		}
	}
	return &mashRow{cells: make([]mashCell, draws)}
}
