package calc

// mashRows keeps what the mash gives every draw at the temperatures of the
// pictures: honey, strain, efficiency and batch leave it alone, and they are
// the levers that move most.
type mashRows struct {
	of         *mashTables
	restErrorC float64
	rows       []*mashRow // in the order of the last call
	spare      []*mashRow
}

type mashRow struct {
	tempC float64
	cells []mashCell
	known bool
}

// rowsOf are the rows of a brew's mash: those that were its last, or the ones that
// were asked for longer ago.
func (e *Engine) rowsOf(b *Brew) *mashRows {
	if first := &e.rows[0]; first.of != b.mash || first.restErrorC != b.d.Kit.RestErrorC {
		e.rows[0], e.rows[1] = e.rows[1], e.rows[0]
	}
	return &e.rows[0]
}

// forget makes every row unknown: the malt's doubt is another.
func (m *mashRows) forget() {
	for _, row := range m.rows {
		row.known = false
	}
}

// at is the rows of some temperatures, those that are not known yet to be
// filled by the caller. Every temperature has a row of its own, so that rows
// can be filled at the same time.
func (m *mashRows) at(b *Brew, temperaturesC []float64) []*mashRow {
	if m.of != b.mash || m.restErrorC != b.d.Kit.RestErrorC || b.mash == nil {
		m.of, m.restErrorC = b.mash, b.d.Kit.RestErrorC
		m.spare = append(m.spare, m.rows...)
		m.rows = m.rows[:0]
	}
	old := m.rows
	m.rows = make([]*mashRow, len(temperaturesC))
	for k, t := range temperaturesC {
		for i, row := range old {
			if row != nil && row.tempC == t {
				m.rows[k], old[i] = row, nil
				break
			}
		}
	}
	for _, row := range old {
		if row != nil {
			m.spare = append(m.spare, row)
		}
	}
	for k, t := range temperaturesC {
		if m.rows[k] != nil {
			continue
		}
		var row *mashRow
		if n := len(m.spare); n > 0 {
			row, m.spare = m.spare[n-1], m.spare[:n-1]
		} else {
			row = &mashRow{cells: make([]mashCell, len(b.draws))}
		}
		row.tempC, row.known = t, false
		m.rows[k] = row
	}
	return m.rows
}
