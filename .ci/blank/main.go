// An empty window: what the toolkit costs when nobody does anything. See
// .ci/start.
package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	w := app.NewWithID("org.skep.blank").NewWindow("blank")
	w.SetContent(widget.NewLabel("nothing"))
	w.Resize(fyne.NewSize(1280, 800))
	w.ShowAndRun()
}
