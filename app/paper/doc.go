// Package paper makes the printed sheet of a design: it asks the engine, works
// the day out and hands both to plotting/sheet in the person's units. The
// command and the window's Print use it alike; it knows no display.
package paper
