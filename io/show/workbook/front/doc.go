// Package front lays out the sheets that answer for any county and crop: Front, which
// the workbook opens on, the rows of Counties and Crops that it looks up, the chosen row
// step by step, Checks, and two that stay out of sight.
//
// It knows how the law's arithmetic is written as formulas and which cells follow which.
// It must not know farms or where figures come from, and it draws no odds: outcomes come
// from package explain as parts of a price or yield, and formulas put them to whatever is
// typed in. Start reading at Lay.
package front
