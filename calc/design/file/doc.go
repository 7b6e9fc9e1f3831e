// Package file turns the text of a design file, or of a catalogue, into a design
// and a changed design back into text. It is handed bytes and gives bytes: it
// knows no file system, and what a key may hold it asks of package design.
//
// Reading ([Parse], [ParseList]) goes source -> size and depth limits ->
// BurntSushi/toml, which judges and decodes -> a line index of our own, which
// knows where every key stands -> values and findings. Writing
// ([Document.Write]) edits the source in place through the same index, so that
// comments, order, spacing and unknown keys stay byte for byte; [Encode] writes
// a new file.
//
// The index is ours because the writer needs to know where each header, inline
// table, list and comma begins and ends. The parser of pelletier/go-toml v2.4.3
// (unstable) reads all of TOML 1.1, but its nodes have no range for headers and
// lists, of an inline table the opening brace alone, and none for commas: what
// it leaves to be found by hand is as long as the scanner that it would replace.
package file
