package userfile

import (
	"os"
	"os/user"
	"runtime"
	"strconv"

	"github.com/adrg/xdg"
)

// noHome is the home of who has none: nothing can be written there. Without any the
// toolkit and the library of folders would take the folder that the program happens to
// be started in.
const noHome = "/nonexistent"

// FindHome gives the process the home that the system knows of this user where the
// environment has none, as under a service or setpriv.
func FindHome() {
	if runtime.GOOS == "windows" || os.Getenv("HOME") != "" {
		return
	}
	home := noHome
	if u, err := user.LookupId(strconv.Itoa(os.Getuid())); err == nil && u.HomeDir != "" {
		home = u.HomeDir
	}
	_ = os.Setenv("HOME", home) // can't fail: the name is sound
	xdg.Reload()
}
