// Package charset takes the place of golang.org/x/net/html/charset, of which excelize
// calls NewReaderLabel alone (go.mod has the replace). That one brings the tables of every
// encoding of the web, 0.8 MB here; a part of an .xlsx is UTF-8 or UTF-16 by its standard.
//
// It knows the names of encodings and nothing of workbooks. Start reading at NewReaderLabel.
package charset
