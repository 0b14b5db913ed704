// Package farmfile opens a table of farms on the disk, whatever its kind: .csv, .xlsx or
// .parquet. It also writes an empty workbook to fill in.
//
// It joins the readers of these kinds, so that io/read/farmtable need not know them. It must
// not know what a column means beyond its words. Start reading at Open.
package farmfile
