package workbook

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// look is how a cell is shown: in black and white, on paper as on screen.
type look struct {
	format string // of numbers
	title  bool   // of a sheet
	bold   bool
	wrap   bool
	under  bool // ruled below
	right  bool // a figure written as text
	input  bool // bordered and unlocked
	law    bool // dotted ground: a figure of the law
}

// Formats of numbers.
const (
	moneyFormat = "#,##0.00"
	partFormat  = "0%"
	shareFormat = "0.00####"
	liftFormat  = "0.000000000000"
	// aheadFormat writes ARC-CO less PLC as who is ahead and by how much.
	aheadFormat = `"ARC-CO by "#,##0.00;"PLC by "#,##0.00;"even"`
)

// decimalsFormat shows so many decimals.
func decimalsFormat(decimals int) string {
	if decimals == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", decimals)
}

// style is the look in the library's words.
func (l look) style() *excelize.Style {
	const titleSize, dotted = 14, 18
	style := &excelize.Style{Font: &excelize.Font{Bold: l.bold || l.title}, Protection: &excelize.Protection{Locked: !l.input}}
	if l.title {
		style.Font.Size = titleSize
	}
	if l.format != "" {
		format := l.format
		style.CustomNumFmt = &format
	}
	switch {
	case l.wrap:
		style.Alignment = &excelize.Alignment{WrapText: true, Vertical: "bottom", Horizontal: "center"}
	case l.format != "" || l.right:
		style.Alignment = &excelize.Alignment{Horizontal: "right", Indent: 1}
	case !l.title && !l.bold:
		style.Alignment = &excelize.Alignment{Horizontal: "left"}
	}
	sides := []string{}
	if l.under {
		sides = []string{"bottom"}
	}
	if l.input {
		sides = []string{"left", "right", "top", "bottom"}
	}
	for _, side := range sides {
		style.Border = append(style.Border, excelize.Border{Type: side, Color: "000000", Style: 1})
	}
	if l.law {
		style.Fill = excelize.Fill{Type: "pattern", Pattern: dotted, Color: []string{"000000"}}
	}
	return style
}
