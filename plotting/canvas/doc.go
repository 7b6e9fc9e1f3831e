// Package canvas is what pictures are drawn on where gonum/plot's own canvases
// don't serve: pixels that are drawn again and again, and a part of a page of
// PDF. In comes what a plot.Plot asks of a vg.Canvas; out go pixels or a page.
// It must not know what a picture shows.
package canvas
