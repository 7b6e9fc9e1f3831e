//go:build !ci

package display

import (
	"net"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"time"

	"skep/calc/message"
)

// Answers tells why no window can open, or nil. The toolkit would panic.
func Answers(getenv func(string) string) error {
	switch runtime.GOOS {
	case "windows", "darwin", "ios", "android":
		return nil
	}
	x, wayland := getenv("DISPLAY"), getenv("WAYLAND_DISPLAY")
	if x == "" && wayland == "" {
		return message.NewError("no display: neither DISPLAY nor WAYLAND_DISPLAY is set; the commands work without one, see skep help")
	}
	if wayland != "" && answersWayland(wayland, getenv("XDG_RUNTIME_DIR")) || x != "" && answersX(x) {
		return nil
	}
	return message.NewError("no display: nothing answers at {x} or {wayland}; the commands work without one, see skep help", "DISPLAY="+x, "WAYLAND_DISPLAY="+wayland)
}

// patience is how long a display may take to answer; a local one does at once.
const patience = 2 * time.Second

func answers(network, address string) bool {
	c, err := net.DialTimeout(network, address, patience)
	if err != nil {
		return false
	}
	_ = c.Close()
	return true
}

func answersWayland(name, folder string) bool {
	if !filepath.IsAbs(name) {
		name = filepath.Join(folder, name)
	}
	return answers("unix", name)
}

// answersX knocks at an X display named HOST:NUMBER.SCREEN; what it can't read
// is left to the toolkit.
func answersX(name string) bool {
	const firstPort = 6000 // of the X protocol over TCP
	host, rest, ok := cutLast(name, ":")
	number, _, _ := strings.Cut(rest, ".")
	n, err := strconv.Atoi(number)
	if !ok || err != nil || strings.HasPrefix(host, "/") {
		return true
	}
	if host == "" || host == "unix" {
		socket := "/tmp/.X11-unix/X" + number
		return answers("unix", socket) || answers("unix", "@"+socket) || answers("tcp", net.JoinHostPort("localhost", strconv.Itoa(firstPort+n)))
	}
	return answers("tcp", net.JoinHostPort(host, strconv.Itoa(firstPort+n)))
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}
