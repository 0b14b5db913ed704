// Package summary writes the tables of a batch as a workbook for an office: a sheet each,
// with a title, what is to be known before reading, heads that stay in sight and on every
// printed page, filters, and numbers as numbers. It knows no farm and computes nothing.
// Start reading at Write.
package summary
