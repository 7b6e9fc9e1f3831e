// Package command is Skep without a window: it reads the command line, does what it
// asks and says how it went. It touches no display and no toolkit.
//
// Arguments and streams come in, an exit code goes out. It must not know a place of
// the window.
//
// Results go to standard output, whole or not at all; messages go to standard
// error through the functions of messages.go. Exit codes are Done, InputWrong,
// CommandWrong and MachineFailed.
//
// One file holds one command: a struct with its arguments for kong, Help with a
// worked line, and Run.
package command
