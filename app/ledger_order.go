package app

import (
	"fyne.io/fyne/v2"

	"skep/app/ledger"
	"skep/app/ui"
	"skep/app/words"
)

// orders are what batches can be ordered by.
var orders = []string{"date", "title", "yeast", ledger.OriginalGravity, ledger.FinalGravity, ledger.Strength, ledger.Attenuation,
	ledger.Yield, ledger.BoilOff, ledger.Height, ledger.Dryness, ledger.Body}

// rising says how an order begins: dates with the latest.
func rising(by string) bool { return by != "date" }

func (p *ledgerPlace) orderName(by string) string {
	switch by {
	case "title":
		return words.T("by title")
	case "yeast":
		return words.T("by yeast")
	case ledger.OriginalGravity:
		return words.T("by original gravity")
	case ledger.FinalGravity:
		return words.T("by final gravity")
	case ledger.Strength:
		return words.T("by strength")
	case ledger.Attenuation:
		return words.T("by attenuation")
	case ledger.Yield:
		return words.T("by yield")
	case ledger.BoilOff:
		return words.T("by boil-off")
	case ledger.Height:
		return words.T("by time to the height")
	case ledger.Dryness:
		return words.T("by dryness tasted")
	case ledger.Body:
		return words.T("by body tasted")
	}
	return words.T("by date")
}

// chosenOrder is the order with its direction: dates in words, others with an
// arrow.
func (p *ledgerPlace) chosenOrder() (text, spoken string) {
	up := rising(p.by) != p.turned
	switch {
	case p.by == "date" && up:
		return words.T("earliest first"), words.T("order")
	case p.by == "date":
		return words.T("latest first"), words.T("order")
	case up:
		return words.T("{{.Order}} ↑", map[string]any{"Order": p.orderName(p.by)}), words.T("order, the smallest first")
	}
	return words.T("{{.Order}} ↓", map[string]any{"Order": p.orderName(p.by)}), words.T("order, the largest first")
}

// orderBy takes an order; the same again turns it round.
func (p *ledgerPlace) orderBy(by string) {
	p.turned = by == p.by && !p.turned
	p.by = by
	p.fill()
}

func (p *ledgerPlace) chooseOrder() {
	var items []*fyne.MenuItem
	for _, by := range orders {
		name := p.orderName(by)
		if by == p.by {
			name = words.T("{{.Order}}: turn it round", map[string]any{"Order": name})
		}
		m := fyne.NewMenuItem(name, func() { p.orderBy(by) })
		m.Checked = by == p.by
		items = append(items, m)
	}
	ui.PopUp(p.b, p.sort, items...)
}
