// Package farmtable reads a table of farms: one row per farm, tract and
// commodity, for one operation or for many. It takes .csv files apart itself; the lines
// of other kinds of file come from their own packages (io/read/farmfile opens any kind).
//
// It knows the columns, the habits of spreadsheet programs and what rows of one
// operation must agree on. It must not know a price, a county yield or a payment,
// and guesses nothing: a row is either good or refused with every reason. A file
// is read row by row; memory does not grow with it.
//
// Start reading at Reader.Next, then Assemble, which joins the rows of one
// operation. The columns and their names, Row, Refusal and Operation stay stable.
package farmtable
