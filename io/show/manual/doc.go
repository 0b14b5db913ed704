// Package manual writes man pages: the pages that man(1) shows on Linux and macOS, in the
// macros of man(7).
//
// It knows how such a page is laid out, and no command: what stands on a page is given. Start
// reading at Page.Write.
package manual
