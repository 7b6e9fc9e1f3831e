package ledger

import (
	"fyne.io/fyne/v2"

	"skep/app/batches"
	"skep/app/ui"
	"skep/app/words"
)

// Orders are what batches can be ordered by.
var Orders = []string{"date", "title", "yeast", batches.OriginalGravity, batches.FinalGravity, batches.Strength, batches.Attenuation,
	batches.Yield, batches.BoilOff, batches.Height, batches.Dryness, batches.Body}

// rising says how an order begins: dates with the latest.
func rising(by string) bool { return by != "date" }

func (p *Place) orderName(by string) string {
	switch by {
	case "title":
		return words.T("by title")
	case "yeast":
		return words.T("by yeast")
	case batches.OriginalGravity:
		return words.T("by original gravity")
	case batches.FinalGravity:
		return words.T("by final gravity")
	case batches.Strength:
		return words.T("by strength")
	case batches.Attenuation:
		return words.T("by attenuation")
	case batches.Yield:
		return words.T("by yield")
	case batches.BoilOff:
		return words.T("by boil-off")
	case batches.Height:
		return words.T("by time to the height")
	case batches.Dryness:
		return words.T("by dryness tasted")
	case batches.Body:
		return words.T("by body tasted")
	}
	return words.T("by date")
}

// chosenOrder is the order with its direction: dates in words, others with an
// arrow.
func (p *Place) chosenOrder() (text, spoken string) {
	up := rising(p.by) != p.turned
	switch {
	case p.by == "date" && up:
		return words.T("earliest first"), words.T("order")
	case p.by == "date":
		return words.T("latest first"), words.T("order")
	case up:
		return words.T("{order} ↑", p.orderName(p.by)), words.T("order, the smallest first")
	}
	return words.T("{order} ↓", p.orderName(p.by)), words.T("order, the largest first")
}

// OrderBy takes an order; the same again turns it round.
func (p *Place) OrderBy(by string) {
	p.turned = by == p.by && !p.turned
	p.by = by
	p.Fill()
}

func (p *Place) chooseOrder() {
	var items []*fyne.MenuItem
	for _, by := range Orders {
		name := p.orderName(by)
		if by == p.by {
			name = words.T("{order}: turn it round", name)
		}
		m := fyne.NewMenuItem(name, func() { p.OrderBy(by) })
		m.Checked = by == p.by
		items = append(items, m)
	}
	ui.PopUp(p.host, p.Sort, items...)
}
