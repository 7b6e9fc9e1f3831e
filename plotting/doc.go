// Package plotting turns results into pictures, each a [plot.Plot] of
// gonum/plot with our Plotters. In come curves with their doubt, from 10th to
// 90th percentile, and how a person reads their units; out go the pixels of the
// window, and PNG, SVG and PDF, which differ by their vg.Canvas alone. It must
// not compute a beer, know the window or its toolkit, or touch a file.
//
// A picture a file:
//
//   - dryness_body_strength_gravity.go: one of these outcomes against the
//     temperature of a mash rest, of a design and its ghost or of several strains
//     (its data are in picture.go);
//   - courseplots.go: a fermentation by the hour (its data are in course.go);
//   - landing.go: where a beer lands between dry and sweet, light and full
//     (its Plotters in landingplotters.go; what a window takes hold of in
//     landinglayout.go and landingwords.go);
//   - mashcourse.go: a mash by the minute;
//   - sheet.go: pictures on a page for a file. The brew sheet is in
//     plotting/sheet.
//
// What pictures are made of is in plotting/plotters (band, line, moment, bar, mark,
// span, the names where lines end), how they look in plotting/style, and what
// they are drawn on in plotting/canvas; SVG is gonum/plot's own.
//
// [Painter] draws the same pictures again and again. It keeps the pixels of
// grid, axes and texts, and for a frame draws only what a lever moves.
//
// Lengths are vg's points, y upwards, given as multiples of canvas.Px, a
// pixel at scale 1; sizes of texts and the layouts that a window gets are in pixels, y
// downwards.
package plotting
