// Package display asks, before the window toolkit does, whether there is a
// display that it can use, and on which side of the desktop.
//
// The environment comes in, an error that says what to do goes out, or the
// environment set so that the toolkit finds its way quietly. It knows nothing of
// the toolkit's own types and nothing of Skep.
package display

import (
	"encoding/binary"
	"io"
	"net"
	"os"
	"path/filepath"
	"time"

	"skep/calc/message"
)

// answerWithin is how long a compositor may take to say what it has: it answers
// in a millisecond, and one that hangs must not keep the window from opening.
const answerWithin = time.Second

// Ready looks at the environment of a Linux or BSD desktop. The toolkit tries
// Wayland first and ends in a segmentation fault on a compositor without a seat
// (no keyboard, no pointer); without Wayland it complains of a folder that only
// Wayland needs. Both are settled here by XDG_SESSION_TYPE, which it heeds.
func Ready() error {
	x11 := os.Getenv("DISPLAY") != ""
	name := os.Getenv("WAYLAND_DISPLAY")
	if name == "" || os.Getenv("XDG_SESSION_TYPE") == "x11" && x11 {
		if x11 {
			return os.Setenv("XDG_SESSION_TYPE", "x11")
		}
		return nil // the toolkit's own message says that there is no display
	}
	seat, err := hasSeat(name)
	switch {
	case err == nil && seat:
		return nil
	case x11:
		return os.Setenv("XDG_SESSION_TYPE", "x11")
	case err != nil:
		return message.NewError("the Wayland display {name} does not answer: {error}", name, err)
	}
	return message.NewError("the Wayland display {name} has no seat (no keyboard and no pointer): open Skep where somebody can sit down, or set DISPLAY to an X server", name)
}

// The Wayland wire format: 32-bit words in the machine's order; object, then
// size<<16|opcode, then arguments; a string is its length with the closing nought,
// then its bytes, padded to a word. Object 1 is the display.
// https://wayland.freedesktop.org/docs/html/ch04.html
const (
	displayObject  = 1
	registryObject = 2
	callbackObject = 3
	sync           = 0 // requests of the display
	getRegistry    = 1
	global         = 0 // event of the registry: name, interface, version
)

// hasSeat asks the compositor for its list of globals and looks for wl_seat.
func hasSeat(name string) (bool, error) {
	socket := name
	if !filepath.IsAbs(name) {
		folder := os.Getenv("XDG_RUNTIME_DIR")
		if folder == "" {
			return false, message.NewError("XDG_RUNTIME_DIR is not set")
		}
		socket = filepath.Join(folder, name)
	}
	c, err := net.DialTimeout("unix", socket, answerWithin)
	if err != nil {
		return false, err
	}
	defer c.Close()
	if err := c.SetDeadline(time.Now().Add(answerWithin)); err != nil {
		return false, err
	}
	var ask []byte
	for _, word := range []uint32{
		displayObject, 12<<16 | getRegistry, registryObject,
		displayObject, 12<<16 | sync, callbackObject,
	} {
		ask = binary.NativeEndian.AppendUint32(ask, word)
	}
	if _, err := c.Write(ask); err != nil {
		return false, err
	}
	return seatAmong(c)
}

// seatAmong reads events until the answer to sync, after which nothing of the
// list is still to come.
func seatAmong(events io.Reader) (bool, error) {
	seat := false
	for {
		var head [8]byte
		if _, err := io.ReadFull(events, head[:]); err != nil {
			return false, err
		}
		object := binary.NativeEndian.Uint32(head[:])
		size := binary.NativeEndian.Uint32(head[4:]) >> 16
		opcode := binary.NativeEndian.Uint32(head[4:]) & 0xffff
		if size < uint32(len(head)) {
			return false, message.NewError("it sent an event of {count} bytes", size)
		}
		body := make([]byte, size-uint32(len(head)))
		if _, err := io.ReadFull(events, body); err != nil {
			return false, err
		}
		switch {
		case object == callbackObject:
			return seat, nil
		case object == displayObject && opcode == 0:
			return false, message.NewError("it does not say what it offers")
		case object == registryObject && opcode == global && len(body) >= 8:
			length := binary.NativeEndian.Uint32(body[4:])
			if text := body[8:]; length >= 1 && length <= uint32(len(text)) && string(text[:length-1]) == "wl_seat" {
				seat = true
			}
		}
	}
}
