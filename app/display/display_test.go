package display

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// event is one message as the protocol's wire format has it.
func event(object, opcode uint32, args ...any) []byte {
	var body []byte
	for _, a := range args {
		switch a := a.(type) {
		case uint32:
			body = binary.NativeEndian.AppendUint32(body, a)
		case string:
			text := append([]byte(a), 0)
			body = binary.NativeEndian.AppendUint32(body, uint32(len(text)))
			for len(text)%4 != 0 {
				text = append(text, 0)
			}
			body = append(body, text...)
		}
	}
	head := binary.NativeEndian.AppendUint32(nil, object)
	head = binary.NativeEndian.AppendUint32(head, uint32(len(body)+8)<<16|opcode)
	return append(head, body...)
}

func list(globals ...string) []byte {
	var all []byte
	for i, g := range globals {
		all = append(all, event(registryObject, global, uint32(i+1), g, uint32(5))...)
	}
	return append(all, event(callbackObject, 0, uint32(0))...)
}

func TestASeatIsFoundAmongTheGlobals(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		events []byte
		seat   bool
		fails  error
	}{
		"a desktop":   {list("wl_compositor", "wl_shm", "wl_seat", "xdg_wm_base"), true, nil},
		"no seat":     {list("wl_compositor", "wl_seating", "wl_shm"), false, nil},
		"cut off":     {list("wl_compositor", "wl_seat")[:30], false, io.ErrUnexpectedEOF},
		"says no":     {event(displayObject, 0, uint32(1), uint32(0), "no"), false, errors.New("refuses")},
		"size nought": {make([]byte, 8), false, errors.New("0 bytes")},
	} {
		seat, err := seatAmong(bytes.NewReader(c.events))
		if seat != c.seat || (err == nil) != (c.fails == nil) {
			t.Errorf("%s: seat %v, %v", name, seat, err)
		}
	}
}

// compositor answers one client on a socket and returns the socket's path.
func compositor(t *testing.T, answer []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "wl")
	l, err := net.Listen("unix", path)
	if err != nil {
		t.Skip("no unix sockets here:", err)
	}
	t.Cleanup(func() { l.Close() })
	go func() {
		c, err := l.Accept()
		if err != nil {
			return
		}
		defer c.Close()
		_, _ = io.ReadFull(c, make([]byte, 24))
		_, _ = c.Write(answer)
	}()
	return path
}

func TestReady(t *testing.T) {
	for name, c := range map[string]struct {
		answer        []byte
		display       string
		want, session string
	}{
		"a seat":                 {list("wl_seat"), "", "", ""},
		"a seat, X as well":      {list("wl_seat"), ":0", "", ""},
		"no seat":                {list("wl_shm"), "", "no seat", ""},
		"no seat, X beside it":   {list("wl_shm"), ":0", "", "x11"},
		"hangs up":               {nil, "", "does not answer", ""},
		"hangs up, X beside it":  {nil, ":0", "", "x11"},
		"X alone":                {nil, ":0", "", "x11"},
		"nothing: the toolkit's": {nil, "", "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Setenv("XDG_SESSION_TYPE", "")
			t.Setenv("DISPLAY", c.display)
			t.Setenv("WAYLAND_DISPLAY", "")
			if !strings.Contains(name, "alone") && !strings.Contains(name, "nothing") {
				t.Setenv("WAYLAND_DISPLAY", compositor(t, c.answer))
			}
			err := Ready()
			if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, want %q", err, c.want)
			}
			if got := os.Getenv("XDG_SESSION_TYPE"); got != c.session {
				t.Errorf("XDG_SESSION_TYPE=%q, want %q", got, c.session)
			}
		})
	}
}
