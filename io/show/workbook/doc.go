// Package workbook writes a comparison as a spreadsheet whose sums are live:
// change a price, a county yield or an acre, and every rate and payment follows,
// rounded at each step as package program rounds.
//
// It knows how the law's arithmetic is written as formulas. It must not know
// where figures come from, and it draws no odds: the odds it prints as
// values. Start reading at Write, then at inputs.go for what can be changed.
package workbook
