// Package file writes the files of a run, each whole or not at all. A file is written
// under a name of its own beside its place, brought to the disk (fsync), renamed, and
// its folder brought to the disk too: after a crash the old file or the new one is
// there, never half of one. An output is never written over an input of the run or over
// another output of it, never through a symbolic link, and, where Run.Keep says so, never over
// a file that is there. What cannot be renamed over (a device, a pipe, a standard
// stream) is written to.
//
// It is plain standard library, though libraries for whole writes exist. Of
// github.com/natefinch/atomic (read in November 2026) the folder is not brought to the
// disk, and devices are renamed over; github.com/google/renameio has no Windows; neither
// knows the inputs of a run. Go's os.Rename replaces a file on Windows as well, so little
// would be left for them to do. Windows has no fsync of a folder: there it is left out.
//
// It must not know what is in a file. A program that is killed leaves a file with Ending
// behind, which may be deleted. Start reading at Run.Write.
package file
