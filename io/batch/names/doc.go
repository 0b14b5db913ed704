// Package names says what a batch shows of the names of clients, operations, farms and people:
// the names as they are in the table, or, under a mask, numbers in their place, in columns
// and in sentences alike. Start reading at Labels.
package names
