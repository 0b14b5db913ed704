// Package source is the one way from files, tables, county book and prices to a
// question that sim/compare and sim/explain answer.
//
// It knows the order of sources: of two that have a figure, which one counts. It
// knows names and texts of files, but not where they lie: they come from an fs.FS,
// and spreadsheets and the county book from the interfaces Tables and Book, which
// the caller fills in. It must not know a command line, a database, a spreadsheet
// library or the clock, prints nothing and computes no payment.
//
// Start reading at Question. Request, Found, Tables and Book stay stable.
package source
