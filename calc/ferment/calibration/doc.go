// Package calibration fits the three free factors of package ferment (rate,
// affinity, growth) to published and trade figures, in the open, and lists
// every outside check for the record.
//
// The rows stand in testdata/ferment/rows.toml with their sources. A row is
// fitted or is a check, never both. The fit is least squares of
// (ours - published)/sigma over the logarithms of the factors, by Nelder-Mead
// (gonum/optimize) from two starts; the standard errors come from the
// curvature there (JᵀJ), widened by nothing: with four rows for three factors
// they say how firm the rows hold them, not how true the rows are.
//
// The figures fitted are the trade's, mostly derived or common practice: no
// measured gravity series of a small honey beer is openly to be had. A measured
// series is still wanted.
package calibration
