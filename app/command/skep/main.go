// Command skep here is the commands alone: the same words and results as the
// program with the window, without the toolkit, so that it builds for every
// platform without a C compiler. main.go of the module has the window.
package main

import (
	"os"

	"skep/app/command"
	"skep/calc/message"
)

func main() {
	os.Exit(command.Alone(os.Args[1:], command.Standard(), message.NewError("this is the program with the commands alone; the window is in the program of the other package")))
}
