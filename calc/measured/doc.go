// Package measured is what was written down of a brew: raw readings come in, put
// in order of time and corrected for temperature, instrument and unit ([Timeline]),
// and a design with what was measured in the place of what was planned goes out
// ([Condition]). It knows no posterior: what readings tell of the beer is package
// follow's.
package measured
