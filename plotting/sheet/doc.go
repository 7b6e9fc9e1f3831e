// Package sheet prints a brew: one or two pages to stand beside the vessel with, read
// at arm's length with wet hands, ticked and filled in. [PDF] makes the page, [Text]
// the same content as plain text, for screen readers and terminals.
//
// Content that is already put into words and units comes in, bytes go out. It must not
// know a design, nor a file.
//
// The page is laid out in points from the upper left. Everything is black on
// white; nothing is said by colour alone. Text is real text in reading order,
// in an embedded typeface; the pictures are drawn by package plotting. The
// bytes depend on nothing but the content: no clock, no machine.
//
// The package formats no number itself: see [Formatter].
package sheet
