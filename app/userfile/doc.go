// Package userfile keeps what a person collects over many designs in TOML files of
// their own, beside the settings: strains, grain, honey, hops, and their kits in a
// folder. The keys are those of the catalogue and of the design file.
//
// A folder comes in, lists of what is kept go out, and additions to them. It must not
// know the window, nor what is made of them.
//
// A file with a mistake in it is named with its line and left alone: nothing
// is read from it and nothing is written to it until a person has mended it.
package userfile
