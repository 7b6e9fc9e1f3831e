// Package running is a brew day on its way: which step is at hand, what is ticked,
// the clocks, what was measured. A day of package brewday and the hour come in with
// every call; a [State] goes out that can be written down and read again at any
// moment and rings the same. It must not know a file, a screen or the machine's
// clock.
//
// # Clocks
//
// A clock is held as instants in UTC, never as a count of what is left: a program
// that was killed, a computer that slept and a change of the hour make no
// difference. What is left is worked out when it is asked for.
//
// A wall clock that is set back would make every clock late by as much. [State.Meet]
// is told the hour every second; an hour before the last one can only be a clock set
// back, and all that runs is moved with it, so that it rings after the true minutes.
// What is lost is the time between the two looks: a second while the program runs;
// while it was dead, as long as it was dead. A clock that is set forward can't be
// told from a computer that slept: then it rings too early by as much, and the
// person moves it.
//
// A clock that is held stands still, and what it held is no part of its minutes. One
// whose minutes belong to the design (a rest, the boil, the stand) goes on past its
// end until it is ended by hand: what really passed is what is kept. Others, such as
// the minutes until the pump, are over when they ring.
package running
