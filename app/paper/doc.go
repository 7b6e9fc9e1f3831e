// Package paper makes the printed sheet of a design: it asks the engine, works the day
// out and hands both to plotting/sheet in the person's units. The command and the
// window's Print use it alike; it knows no display.
//
// A design and a formatter come in, the sheet's content goes out. It must not know
// where the page is written.
package paper
