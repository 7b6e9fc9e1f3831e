//go:build !ci && linux

package display

import (
	"net"
	"path/filepath"
	"strings"
	"testing"
)

func TestDisplay(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	socket, err := net.Listen("unix", filepath.Join(folder, "wayland-7"))
	if err != nil {
		t.Fatal(err)
	}
	defer socket.Close()
	for _, c := range []struct {
		name string
		env  map[string]string
		says string
	}{
		{"nothing set", nil, "neither DISPLAY nor WAYLAND_DISPLAY"},
		{"no X server", map[string]string{"DISPLAY": ":9973"}, "nothing answers at DISPLAY=:9973"},
		{"no Wayland server", map[string]string{"WAYLAND_DISPLAY": "wayland-8", "XDG_RUNTIME_DIR": folder}, "nothing answers"},
		{"Wayland", map[string]string{"WAYLAND_DISPLAY": "wayland-7", "XDG_RUNTIME_DIR": folder}, ""},
		{"Wayland by path, X gone", map[string]string{"WAYLAND_DISPLAY": filepath.Join(folder, "wayland-7"), "DISPLAY": ":9973"}, ""},
		{"a name only the toolkit can read", map[string]string{"DISPLAY": "/private/tmp/launch/org.x:0"}, ""},
	} {
		err := Answers(func(k string) string { return c.env[k] })
		if (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
		if err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: more than one line: %q", c.name, err)
		}
	}
}
