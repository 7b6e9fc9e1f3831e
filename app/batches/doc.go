// Package batches reads a folder of finished batches: plain design files with readings
// in them, kept where the person wants them. It lists them with what was predicted and
// what was measured, searches and exports them, and hands them to package learn.
//
// A folder comes in; entries with their comparison, and new files, go out. It must not
// know the window, nor how the list is shown.
//
// Nothing in the folder is ever changed: a file that can't be read, or is no
// design, is named with the reason and left alone. [Add] and [Begin] only make new
// files; a batch that is removed goes to the desktop's waste bin.
//
// What is costly (the prediction of each batch) is kept in a [Cache] by the
// content of the file, so opening the folder again only works out what is new.
package batches
