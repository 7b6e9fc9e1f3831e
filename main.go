// Command skep is a tuning bench for honey beer: a window, and commands that
// work without one.
package main

import (
	_ "skep/app/quiet" // first: what the toolkit reads from the environment

	"os"

	fyneapp "fyne.io/fyne/v2/app"

	"skep/app"
	"skep/app/command"
	"skep/app/userfile"
)

func main() {
	userfile.FindHome()
	todo := command.Run(os.Args[1:], command.Standard())
	if !todo.Window {
		os.Exit(todo.Code)
	}
	os.Exit(app.Main(fyneapp.NewWithID, todo.File))
}
