// Package county reads a county file: yields of one county as a person types
// them.
//
// It knows the keys of the format fencerow/county/1 and what may stand there.
// Which source of a yield wins, and what standard deviation it has, is decided elsewhere.
// Start reading at Parse.
package county
