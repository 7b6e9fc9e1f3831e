package sheet

// row is something of a height that is drawn whole, within its column.
type row struct {
	high float64
	draw func(x, y float64) // y is the row's top
	keep bool               // not the last of its column: the next belongs to it
	gap  bool               // only air: dropped at the top of a column
}

// frame is a column on a page.
type frame struct {
	page         int // from 0
	x, y, bottom float64
}

// placed is a row and where it went.
type placed struct {
	row
	page int
	x, y float64
}

// column is a frame that is being filled.
type column struct {
	frame
	i    int     // of the frames
	at   float64 // where the next row goes
	next func(i int) frame
}

func firstColumn(next func(i int) frame) *column {
	f := next(0)
	return &column{frame: f, at: f.y, next: next}
}

// turn goes on to the next frame.
func (c *column) turn() {
	c.i++
	c.frame = c.next(c.i)
	c.at = c.y
}

// full says that a height has no room here, and would have more in another frame.
func (c *column) full(high float64) bool {
	if c.at+high <= c.bottom {
		return false
	}
	after := c.next(c.i + 1)
	return c.at > c.y || c.bottom-c.y < after.bottom-after.y
}

// flow puts rows into frames, in order. Rows that are kept together start together
// wherever a frame can hold them.
func (c *column) flow(rows []row) (all []placed) {
	for n := 0; n < len(rows); {
		end := n
		high := rows[n].high
		for rows[end].keep && end+1 < len(rows) {
			end++
			high += rows[end].high
		}
		for c.full(high) {
			c.turn()
		}
		for ; n <= end; n++ {
			r := rows[n]
			for c.full(r.high) { // kept rows taller than a column
				c.turn()
			}
			if r.gap && c.at == c.y {
				continue
			}
			all = append(all, placed{r, c.page, c.x, c.at})
			c.at += r.high
		}
	}
	return all
}

// flow fills frames with rows in order. next gives frame after frame, without
// end. pages is how many were used.
func flow(rows []row, next func(i int) frame) (all []placed, pages int) {
	return flowWhole([][]row{rows}, next)
}

// flowWhole is flow for blocks of which none is broken over pages that one page can
// hold: such a block goes to the next page as a whole.
func flowWhole(blocks [][]row, next func(i int) frame) (all []placed, pages int) {
	c := firstColumn(next)
	for _, rows := range blocks {
		before := *c
		part := c.flow(rows)
		if n := len(part); n > 0 && part[0].page != part[n-1].page {
			here := *c
			*c = before
			for c.page == before.page {
				c.turn()
			}
			if whole := c.flow(rows); whole[0].page == whole[len(whole)-1].page {
				part = whole
			} else {
				*c = here // no page holds it
			}
		}
		all = append(all, part...)
	}
	if len(all) == 0 {
		return nil, 1
	}
	return all, all[len(all)-1].page + 1
}
