// Package cells lays out the sheets of a spreadsheet and writes them: cells and
// how they look, formulas and what they come to, charts, what may be typed in.
//
// It knows how formulas round as the law does, and nothing of farms, programs or
// odds: packages workbook and front say what stands in the cells. Start reading at
// Sheet, then at Write; Evaluate works the formulas out, so that a program that
// only reads the file sees every figure.
package cells
