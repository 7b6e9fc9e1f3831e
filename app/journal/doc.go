// Package journal sees that work which is not saved yet survives a crash or a
// power cut, that two programs do not write one file, and that the version
// before the last save is still there.
//
// All of it lies in the state folder ([Folder]), readable by the person alone:
//
//	journal/ID.journal   the unsaved work of one window
//	journal/ID.lock      held by that window's program while it lives
//	locks/KEY.lock       held by the program that has the file KEY open
//	previous/KEY-NAME    the file NAME as it was before the last save
//
// # The journal
//
// A journal is there only while there is unsaved work. It is a row of records;
// each states its lengths and a SHA-256 sum over all of itself, and is counted:
// order never depends on a clock. The first record, the base, holds the file
// that the work started from: path, fingerprint and full text. Each further
// one, the work, holds the whole design as text and the name of the step that
// led to it. Only the newest counts when work is taken back.
//
// A change goes to the disk at once, and further changes at most 200 ms later;
// "on the disk" means written and flushed (fsync), and for a new journal also
// renamed into place and its folder flushed. A torn end, as a power cut leaves,
// is left out when reading. After any failure the next attempt writes the
// journal whole beside the old one and renames it, so that nothing is ever
// appended to a torn record and a full disk costs at most the newest changes.
//
// Whether the writer of a journal still lives is told by its lock, which the
// system gives back when a process ends, however it ends. What is left by the
// dead is listed by [Store.Left], and only [Left.Discard] removes it: with the
// person's answer, or when the same text stands in the file already.
package journal
