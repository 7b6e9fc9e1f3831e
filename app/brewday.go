package app

import (
	"path/filepath"

	"skep/app/day"
	"skep/app/recovery"
	"skep/app/words"
)

// fillDay makes the brew day, which fills the window while it is looked at and goes on
// behind it. Its state lies beside the unsaved work.
func (b *bench) fillDay(state *recovery.Store) {
	store := day.NewStore(filepath.Join(state.Folder(), "days"), func(err error) { b.Do(func() { b.dayTroubled(err) }) })
	b.day = day.New(b, store)
	b.day.Foot = func(text string) { b.Status.SetDay(text, b.enterDay) }
	b.day.Shown = b.dayShown
	b.day.Save = func() {
		if b.Editor.Path() != "" {
			b.Save(nil)
		}
	}
	b.brew.StartDay = b.startDay
}

func (b *bench) dayTroubled(err error) {
	if err != nil {
		b.Warn(words.T("The brew day can't be kept on the disk, and would not survive a crash: {why}", b.Say().Why(err)))
	}
}

// dayShown hides the place behind the day, so that nothing of it is drawn or reached.
func (b *bench) dayShown(open bool) {
	if open {
		b.bar.Hide()
		b.places[b.at].hide()
		return
	}
	b.bar.Show()
	b.places[b.at].show()
	b.Changed()
	b.place().FocusFirst()
}

// startDay begins the brew day of the open batch, or goes to the one that is on. Of a
// plan it makes a batch first, so that what is measured never goes into the plan; the
// demonstration's day is only looked at.
func (b *bench) startDay() {
	d := b.Design()
	switch {
	case b.day.Running():
		b.enterDay()
	case d.Batch.Brewed == "" && len(d.Reading) == 0 && !b.Demonstration():
		b.brewThen(b.day.Start)
	default:
		b.day.Start()
	}
}

// enterDay shows the day, with its own design open.
func (b *bench) enterDay() {
	if path, other := b.day.Elsewhere(); other {
		b.Guard(func() { b.OpenThen(path, b.day.Enter) })
		return
	}
	b.day.Enter()
}
