// Package ui is the kit of parts that the window's places are built of: texts,
// the choice, the panel, the paragraph, rows that are dragged, and the [Host],
// the little that a place may ask of the window.
//
// Texts and callbacks come in, widgets go out. It must not know a place, nor
// what a design means.
package ui
