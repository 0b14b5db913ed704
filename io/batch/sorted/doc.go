// Package sorted puts lines of a file in order, however many there are: what does not fit
// into memory waits in files that are thrown away again. It knows nothing of what the lines
// say. Start reading at Lines.
package sorted
