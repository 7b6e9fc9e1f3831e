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

// flow fills frames with rows in order. next gives frame after frame, without
// end. pages is how many were used.
func flow(rows []row, next func(i int) frame) (all []placed, pages int) {
	i := 0
	f := next(0)
	y := f.y
	for n := 0; n < len(rows); {
		// A row goes with all that it is kept with.
		end := n
		high := rows[n].high
		for rows[end].keep && end+1 < len(rows) {
			end++
			high += rows[end].high
		}
		if y > f.y && y+high > f.bottom {
			i++
			f = next(i)
			y = f.y
		}
		for ; n <= end; n++ {
			r := rows[n]
			if y > f.y && y+r.high > f.bottom { // kept rows taller than a column
				i++
				f = next(i)
				y = f.y
			}
			if r.gap && y == f.y {
				continue
			}
			all = append(all, placed{r, f.page, f.x, y})
			y += r.high
			pages = f.page + 1
		}
	}
	return all, max(pages, 1)
}
