// Package lines is what a table is to its readers before anybody understands it: lines of
// cells, whatever the kind of file.
//
// It knows how a file that cannot be read is refused. It must not know a column or a
// library of spreadsheets. Start reading at Lines.
package lines
