// Package cases holds whole questions about invented farms that tests of several
// rooms share. Nothing in the program imports it.
package cases
