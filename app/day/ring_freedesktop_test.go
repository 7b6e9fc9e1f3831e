//go:build !windows && !darwin

package day

import (
	"bufio"
	"os/exec"
	"strings"
	"testing"

	"github.com/godbus/dbus/v5"
)

// service stands for the desktop's notification service.
type service struct{ got chan call }

type call struct {
	title, text string
	hints       map[string]dbus.Variant
}

// Notify is as the Desktop Notifications Specification has it.
func (s service) Notify(app string, replaces uint32, icon, title, text string, actions []string, hints map[string]dbus.Variant, timeout int32) (uint32, *dbus.Error) {
	s.got <- call{title, text, hints}
	return 1, nil
}

// A clock that has run down asks the desktop for a sound.
func TestTheDesktopIsAskedForASound(t *testing.T) {
	daemon := exec.Command("dbus-daemon", "--session", "--nofork", "--print-address")
	out, err := daemon.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := daemon.Start(); err != nil {
		t.Skip("no bus to ask on: ", err)
	}
	defer func() {
		_ = daemon.Process.Kill()
		_ = daemon.Wait()
	}()
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	address = strings.TrimSpace(address)
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", address)
	bus, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	defer bus.Close()
	s := service{make(chan call, 1)}
	if err := bus.Export(s, "/org/freedesktop/Notifications", "org.freedesktop.Notifications"); err != nil {
		t.Fatal(err)
	}
	if _, err := bus.RequestName("org.freedesktop.Notifications", dbus.NameFlagDoNotQueue); err != nil {
		t.Fatal(err)
	}
	if err := ringDesktop("Boil, 0 min left", "Flame out"); err != nil {
		t.Fatal(err)
	}
	got := <-s.got
	if got.title != "Boil, 0 min left" || got.text != "Flame out" || got.hints["sound-name"].Value() != "alarm-clock-elapsed" {
		t.Errorf("the desktop is asked for %+v", got)
	}
}
