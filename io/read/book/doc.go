// Package book keeps the county book: one SQLite file into which the agencies'
// files are imported once, so that every later question finds its county, its
// yields and its prices with file, edition and row.
//
// It must not know: what is asked about a county. Start with Open and Import.
// The tables may change with a version number; the file is made by this program
// and rebuilt from the agencies' files.
package book
