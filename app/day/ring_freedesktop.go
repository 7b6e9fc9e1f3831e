//go:build !windows && !darwin

package day

import "github.com/godbus/dbus/v5"

// ringDesktop asks the desktop's notification service for a notice that stays and for a
// sound. Fyne's notification has no hints; "sound-name" (Desktop Notifications
// Specification 1.3, hints) names a sound of the desktop's own theme, which the desktop
// plays or leaves out as the person has set it ("alarm-clock-elapsed" is of the Sound
// Naming Specification 0.8).
func ringDesktop(title, text string) error {
	bus, err := dbus.SessionBus() // shared with the toolkit, which closes it
	if err != nil {
		return err
	}
	const urgent = byte(2)
	hints := map[string]dbus.Variant{
		"sound-name":    dbus.MakeVariant("alarm-clock-elapsed"),
		"urgency":       dbus.MakeVariant(urgent),
		"desktop-entry": dbus.MakeVariant("org.skep.Skep"),
	}
	const desktopsTimeout = int32(-1)
	service := bus.Object("org.freedesktop.Notifications", "/org/freedesktop/Notifications")
	return service.Call("org.freedesktop.Notifications.Notify", 0,
		"Skep", uint32(0), "org.skep.Skep", title, text, []string{}, hints, desktopsTimeout).Err
}
