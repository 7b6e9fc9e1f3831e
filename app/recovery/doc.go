// Package recovery sees that work which is not saved yet survives a crash or a power
// cut, that two programs do not write one file, and that the version before the last
// save is still there. It is handed texts and knows nothing of what a design is.
//
// Texts and the moment come in; what a crash left goes out at the next start.
//
// All of it lies in the state folder ([Folder]), readable by the person alone:
//
//	unsaved/ID.json      the unsaved work of one window
//	unsaved/ID.lock      held by that window's program while it lives
//	locks/KEY.lock       held by the program that has the file KEY open
//	previous/KEY-NAME    the file NAME as it was before the last save
//
// A recovery file is there only while there is unsaved work. It holds the whole
// design as text, the name of the step that led to it, and the file that the work
// started from: path, fingerprint and full text. It is written whole each time,
// as every file of Skep is: beside the old one, flushed, and renamed over it. So
// it is never torn, and a full disk costs at most the newest changes. A change
// goes to the disk at once, further ones at most 200 ms later.
//
// Whether the writer of a recovery file still lives is told by its lock, which
// the system gives back when a process ends, however it ends. What is left by the
// dead is listed by [Store.Left], and only [Left.Discard] removes it: with the
// person's answer, or when the same text stands in the file already.
package recovery
