// Package disk is what io/source reads, from the disk of this machine: files, tables and
// the county book, with the place where the book lies unless another is named.
//
// It knows where things lie and joins the readers that need a library. It must not know
// what is in a file, nor which source wins. Start reading at Files, Tables and OpenBook.
package disk
