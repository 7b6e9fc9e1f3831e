// Package plotting turns the engine's curves into pictures: an outcome (final
// gravity in SG, strength in % by volume, dryness and body from 0 to 100)
// against the temperature of one mash rest in °C, with its band of doubt from
// the 10th to the 90th percentile.
//
// One description of a picture (scene.go) is drawn by one of three pens:
//
//   - rasterPen, the fast one behind Painter, for the window;
//   - vgPen, through gonum/plot's vg canvases, for SVG and PNG files;
//   - pdfPen, for PDF files. It writes with fpdf and not with gonum's vgpdf,
//     which knows only code page 1252 and stamps the time of day into the file.
//
// Lengths are device pixels, y downwards, unless a name says otherwise; a text
// size or line width is given at scale 1 and multiplied by Size.Scale.
//
// The package computes no beer and knows no window. How a number is shown
// (SG or °P, °C or °F) is the caller's business: see Unit.
package plotting
