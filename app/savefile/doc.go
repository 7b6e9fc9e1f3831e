// Package savefile is the one way in which Skep reads and writes a person's files.
//
// A path and bytes come in; bytes, or an error that says what to do, go out. It must
// not know what a file holds.
//
// Write replaces a file whole or not at all: the new text goes to a temporary
// file in the same folder, is flushed to the disk and renamed over the old one,
// and the folder is flushed after it. Until the rename the old file stands byte
// for byte; whatever fails, no temporary file stays. Symbolic links are
// followed, so that the linked file changes and the link stays; permissions and,
// where the system allows, the owner are kept.
//
// Read refuses what can't be a design (a folder, more than maxBytes), and
// FingerprintOf and Fingerprint.Same tell whether a file changed underneath.
//
// The order of steps is that of renameio and of the kernel's advice quoted
// there. The steps are our own because the fault tests must fail each of them
// in turn, which that library gives no room for, and because it replaces links,
// leaves the folder unflushed and does nothing on Windows.
package savefile
