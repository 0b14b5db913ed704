// Package workbook goes through the sheets of an .xlsx workbook row by row, with
// numbers as they are stored and TRUE and FALSE as those words.
//
// It is what the readers of farm tables and of the agency's tables share. Which file
// is opened, and how large it may be, they decide. Start reading at Book.
package workbook
