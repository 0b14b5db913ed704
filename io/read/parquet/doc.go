// Package parquet reads a table of a .parquet file as lines of cells.
//
// It knows the library of this kind, and how its values stand in a text file. It must not
// know a column. Start reading at Open.
package parquet
