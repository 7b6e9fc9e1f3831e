// Package calibration fits the four free constants of package ferment (uptake,
// growth, activation, lag) to published, trade and measured figures, in the open,
// and lists every outside check for the record.
//
// The rows stand in testdata/ferment/rows.toml, nine measured fermentations in
// series.csv and the times of thirty more in times.csv beside it, with their
// sources. A row or a series is fitted or is a check, never both: four series are
// fitted, each with its own rate, lag and ends about the middle ones, and five are
// checks, as are all times. The fit is least squares of (ours - published)/sigma
// over the logarithms of the constants, by Nelder-Mead (gonum/optimize); the
// standard errors come from the curvature there.
//
// The trade's figures are mostly derived or common practice, and the measured
// worts held little oxygen: the middle between them is what is planned, and the
// bands of rate and lag reach both. No measured gravity series of a honey beer is
// openly to be had. One is still wanted.
package calibration
