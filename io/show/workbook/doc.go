// Package workbook writes a comparison as a spreadsheet whose sums are live:
// change a price, a county yield or an acre, and every rate and payment follows,
// rounded at each step as package program rounds.
//
// Its farm sheets refer to the rows of package front, which lays out what it opens on
// and the live odds; package cells lays out and writes sheets. It must not know where
// figures come from, and it draws no odds. Start reading at Write, then at inputs.go for
// what can be changed.
package workbook
