// Package day is a brew day on its way: one step that fills the window, in figures
// that are read from two metres and worked with wet hands; in the background a line at
// the foot of the window.
//
// The design comes in through [ui.Host], the hour through a function; readings, real
// minutes and what was decided go out as edits of the design, and the state of the day
// to a file of its own ([Store]). What a clock is and what a measurement means is
// calc/running's and calc/brewday's; it must not know a place.
package day
