package day

import "fyne.io/fyne/v2"

// ring calls when a clock has run down: through the desktop's own notification with a
// sound where it plays one, else as the toolkit notifies.
func ring(title, text string) {
	if err := ringDesktop(title, text); err != nil {
		fyne.CurrentApp().SendNotification(fyne.NewNotification(title, text))
	}
}
