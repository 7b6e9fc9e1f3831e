package table

import "skep/app/ui"

// The look of the tables; what they do is in table.go and draggedrow.go.

const (
	cellGap  = 8
	rowApart = 6
)

// widths works the columns out; 0 leaves one out.
func (t *Table) widths(width float32) []float32 {
	room := width
	if t.Move != nil {
		room -= gripWide + 2*ui.ToolWidth
	}
	if t.Drop != nil {
		room -= ui.ToolWidth
	}
	fixed := func(wide bool) float32 {
		sum := float32(0)
		for i, c := range t.columns {
			if wide || !c.Wide {
				sum += t.columnWidth(i) + cellGap
			}
		}
		return sum
	}
	wide := fixed(true) <= room
	spare := max(room-fixed(wide), 0)
	out := make([]float32, len(t.columns))
	for i, c := range t.columns {
		if c.Wide && !wide {
			continue
		}
		out[i] = t.columnWidth(i)
		if c.Flex {
			out[i] += min(spare, 150)
		}
	}
	return out
}

// columnWidth is a column's own width, or more where its heading needs it.
func (t *Table) columnWidth(i int) float32 {
	return max(t.columns[i].Width, t.heads[i].LeastWidth()+2)
}

func (t *Table) Lay(x, y, width float32) float32 {
	if t.Hides {
		return 0
	}
	h := float32(0)
	if t.N > 0 || t.empty.Text != "" {
		h = t.title.MinSize().Height
		ui.Put(t.title, x, y, width, h)
		h += 4
	}
	ws := t.widths(width)
	if t.N == 0 {
		h += t.empty.Lay(x, y+h, width)
	} else {
		at, high := x, t.heads[0].MinSize().Height
		for c, w := range ws {
			t.heads[c].Hidden = w == 0 // a text is not cut at the edge of no room
			if w > 0 {
				ui.Put(t.heads[c], at+2, y+h, w-2, high)
				at += w + cellGap
			}
		}
		h += high + 3
	}
	for k, r := range t.Rows[:t.N] {
		if k > 0 {
			h += rowApart
		}
		r.Top = y + h
		h += r.lay(x, y+h, width, ws)
		r.Bottom = y + h
	}
	if len(t.adds) > 0 {
		if h > 0 {
			h += 4
		}
		at := x - ui.ChoicePad
		for _, a := range t.adds {
			m := a.MinSize()
			ui.Put(a, at, y+h, m.Width, m.Height)
			at += m.Width + 12
		}
		h += t.adds[0].MinSize().Height
	}
	return h
}

func (r *Row) lay(x, y, width float32, ws []float32) float32 {
	high := ui.FieldHeight()
	at := x
	for c, o := range r.Controls {
		if ws[c] <= 0 {
			o.Hide()
			continue
		}
		o.Show()
		m := o.MinSize().Height
		if _, entry := o.(*ui.Field); entry {
			m = high
		}
		inset := float32(0)
		switch o.(type) {
		case *Shown:
			inset = 2
		case *WordChoice:
			inset = 2 - ui.ChoicePad
		}
		ui.Put(o, at+inset, y+(high-m)/2, ws[c]-inset, m)
		at += ws[c] + cellGap
	}
	tool := func(c *Choice) {
		ui.Put(c, at, y+(high-ui.ChoiceHeight)/2, ui.ToolWidth, ui.ChoiceHeight)
		at += ui.ToolWidth
	}
	if r.t.Move != nil {
		ui.Put(r.Grip, at, y+(high-ui.ChoiceHeight)/2, gripWide, ui.ChoiceHeight)
		at += gripWide
		tool(r.Up)
		tool(r.Down)
	}
	if r.t.Drop != nil {
		tool(r.Out)
	}
	if r.Note.Text != "" {
		return high + 2 + r.Note.Lay(x, y+high+2, width)
	}
	return high
}
