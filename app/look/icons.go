package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Icons are drawn here because Liberation Sans has no ↶ ↷ ▾ ✓ nor a padlock.
// Each is a themed resource: it follows light, dark and disabled; recolour one
// with theme.NewColoredResource.

func icon(name, path string) *theme.ThemedResource {
	return theme.NewThemedResource(fyne.NewStaticResource("skep-"+name+".svg", []byte(
		`<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20" viewBox="0 0 20 20"><path fill="#000000" d="`+path+`"/></svg>`)))
}

// Outlines are filled paths, not strokes: Fyne recolours only what is filled.
var (
	iconLocked   = icon("locked", `M5.85 6.8A4.15 4.15 0 0 1 14.15 6.8A0.85 0.85 0 0 1 12.45 6.8A2.45 2.45 0 0 0 7.55 6.8A0.85 0.85 0 0 1 5.85 6.8zM7.55 6.8L7.55 9.5A0.85 0.85 0 0 1 5.85 9.5L5.85 6.8A0.85 0.85 0 0 1 7.55 6.8zM14.15 6.8L14.15 9.5A0.85 0.85 0 0 1 12.45 9.5L12.45 6.8A0.85 0.85 0 0 1 14.15 6.8zM5.6 9H14.4A1.4 1.4 0 0 1 15.8 10.4V15.8A1.4 1.4 0 0 1 14.4 17.2H5.6A1.4 1.4 0 0 1 4.2 15.8V10.4A1.4 1.4 0 0 1 5.6 9z`)
	iconUnlocked = icon("unlocked", `M5.85 6A4.15 4.15 0 0 1 14.01 4.93A0.85 0.85 0 0 1 12.37 5.37A2.45 2.45 0 0 0 7.55 6A0.85 0.85 0 0 1 5.85 6zM7.55 6L7.55 9.5A0.85 0.85 0 0 1 5.85 9.5L5.85 6A0.85 0.85 0 0 1 7.55 6zM5.6 9H14.4A1.4 1.4 0 0 1 15.8 10.4V15.8A1.4 1.4 0 0 1 14.4 17.2H5.6A1.4 1.4 0 0 1 4.2 15.8V10.4A1.4 1.4 0 0 1 5.6 9zM6.2 10.6A0.4 0.4 0 0 0 5.8 11V15.2A0.4 0.4 0 0 0 6.2 15.6H13.8A0.4 0.4 0 0 0 14.2 15.2V11A0.4 0.4 0 0 0 13.8 10.6z`)
	iconReset    = icon("reset", `M5.09 5.69A6.95 6.95 0 1 1 3.29 12.4A0.85 0.85 0 0 1 4.93 11.96A5.25 5.25 0 1 0 6.29 6.89A0.85 0.85 0 0 1 5.09 5.69zM5.45 3.2L5.45 7.4A0.85 0.85 0 0 1 3.75 7.4L3.75 3.2A0.85 0.85 0 0 1 5.45 3.2zM4.6 6.55L8.8 6.55A0.85 0.85 0 0 1 8.8 8.25L4.6 8.25A0.85 0.85 0 0 1 4.6 6.55z`)
	iconUndo     = icon("undo", `M8 4.2L4.2 8A0.85 0.85 0 0 1 3 6.8L6.8 3A0.85 0.85 0 0 1 8 4.2zM4.2 6.8L8 10.6A0.85 0.85 0 0 1 6.8 11.8L3 8A0.85 0.85 0 0 1 4.2 6.8zM3.9 6.55L11.6 6.55A0.85 0.85 0 0 1 11.6 8.25L3.9 8.25A0.85 0.85 0 0 1 3.9 6.55zM11.6 6.55A5.35 5.35 0 0 1 11.6 17.25A0.85 0.85 0 0 1 11.6 15.55A3.65 3.65 0 0 0 11.6 8.25A0.85 0.85 0 0 1 11.6 6.55zM11.6 17.25L8 17.25A0.85 0.85 0 0 1 8 15.55L11.6 15.55A0.85 0.85 0 0 1 11.6 17.25z`)
	iconRedo     = icon("redo", `M13.2 3L17 6.8A0.85 0.85 0 0 1 15.8 8L12 4.2A0.85 0.85 0 0 1 13.2 3zM17 8L13.2 11.8A0.85 0.85 0 0 1 12 10.6L15.8 6.8A0.85 0.85 0 0 1 17 8zM16.1 8.25L8.4 8.25A0.85 0.85 0 0 1 8.4 6.55L16.1 6.55A0.85 0.85 0 0 1 16.1 8.25zM8.4 17.25A5.35 5.35 0 0 1 8.4 6.55A0.85 0.85 0 0 1 8.4 8.25A3.65 3.65 0 0 0 8.4 15.55A0.85 0.85 0 0 1 8.4 17.25zM8.4 15.55L12 15.55A0.85 0.85 0 0 1 12 17.25L8.4 17.25A0.85 0.85 0 0 1 8.4 15.55z`)
	iconDown     = icon("down", `M5.5 7.8L14.5 7.8L10 13z`)
	iconClose    = icon("close", `M6 4.8L15.2 14A0.85 0.85 0 0 1 14 15.2L4.8 6A0.85 0.85 0 0 1 6 4.8zM15.2 6L6 15.2A0.85 0.85 0 0 1 4.8 14L14 4.8A0.85 0.85 0 0 1 15.2 6z`)
	iconTick     = icon("tick", `M5 10L8.8 13.8A0.85 0.85 0 0 1 7.6 15L3.8 11.2A0.85 0.85 0 0 1 5 10zM7.56 13.84L14.96 5.44A0.85 0.85 0 0 1 16.24 6.56L8.84 14.96A0.85 0.85 0 0 1 7.56 13.84z`)
	iconMore     = icon("more", `M4.5 8.7H4.5A1.3 1.3 0 0 1 5.8 10V10A1.3 1.3 0 0 1 4.5 11.3H4.5A1.3 1.3 0 0 1 3.2 10V10A1.3 1.3 0 0 1 4.5 8.7zM10 8.7H10A1.3 1.3 0 0 1 11.3 10V10A1.3 1.3 0 0 1 10 11.3H10A1.3 1.3 0 0 1 8.7 10V10A1.3 1.3 0 0 1 10 8.7zM15.5 8.7H15.5A1.3 1.3 0 0 1 16.8 10V10A1.3 1.3 0 0 1 15.5 11.3H15.5A1.3 1.3 0 0 1 14.2 10V10A1.3 1.3 0 0 1 15.5 8.7z`)
)

// IconLocked is a shut padlock: the lever keeps its place.
func IconLocked() fyne.Resource { return iconLocked }

// IconUnlocked is an open padlock.
func IconUnlocked() fyne.Resource { return iconUnlocked }

// IconReset is an arrow bent back to its start.
func IconReset() fyne.Resource { return iconReset }

// IconUndo points back.
func IconUndo() fyne.Resource { return iconUndo }

// IconRedo points forward.
func IconRedo() fyne.Resource { return iconRedo }

// IconDown is the small triangle of a choice.
func IconDown() fyne.Resource { return iconDown }

// IconClose is a plain cross.
func IconClose() fyne.Resource { return iconClose }

// IconTick is a check mark.
func IconTick() fyne.Resource { return iconTick }

// IconMore is three dots.
func IconMore() fyne.Resource { return iconMore }

// IconUp is the small triangle the other way.
func IconUp() fyne.Resource { return iconUp }

// IconGrip is the dots that a row is dragged by.
func IconGrip() fyne.Resource { return iconGrip }

// IconPlus stands before what adds a line.
func IconPlus() fyne.Resource { return iconPlus }

var (
	iconUp   = icon("up", `M5.5 12.6L14.5 12.6L10 7.4z`)
	iconGrip = icon("grip", `M6 3.5h2.4v2.4h-2.4zM11.6 3.5h2.4v2.4h-2.4zM6 8.8h2.4v2.4h-2.4zM11.6 8.8h2.4v2.4h-2.4zM6 14.1h2.4v2.4h-2.4zM11.6 14.1h2.4v2.4h-2.4z`)
	iconPlus = icon("plus", `M9.15 4.5H10.85V9.15H15.5V10.85H10.85V15.5H9.15V10.85H4.5V9.15H9.15z`)
)
