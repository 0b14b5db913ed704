package cells

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// Look is how a cell is shown: in black and white, on paper as on screen.
type Look struct {
	Format string // of numbers
	Title  bool   // of a sheet
	Bold   bool
	Wrap   bool
	Under  bool // ruled below
	Right  bool // a figure written as text
	Input  bool // bordered and unlocked
	Law    bool // dotted ground: a figure of the law
}

// Formats of numbers.
const (
	MoneyFormat = "#,##0.00"
	PartFormat  = "0%"
	ShareFormat = "0.00####"
	LiftFormat  = "0.000000000000"
	// AheadFormat writes ARC-CO less PLC as who is ahead and by how much.
	AheadFormat = `"ARC-CO by "#,##0.00;"PLC by "#,##0.00;"even"`
)

// DecimalsFormat shows so many decimals.
func DecimalsFormat(decimals int) string {
	if decimals == 0 {
		return "#,##0"
	}
	return "#,##0." + strings.Repeat("0", decimals)
}

// style is the look in the library's words.
func (l Look) style() *excelize.Style {
	const titleSize, dotted = 14, 18
	style := &excelize.Style{Font: &excelize.Font{Bold: l.Bold || l.Title}, Protection: &excelize.Protection{Locked: !l.Input}}
	if l.Title {
		style.Font.Size = titleSize
	}
	if l.Format != "" {
		format := l.Format
		style.CustomNumFmt = &format
	}
	switch {
	case l.Wrap:
		style.Alignment = &excelize.Alignment{WrapText: true, Vertical: "bottom", Horizontal: "center"}
	case l.Format != "" || l.Right:
		style.Alignment = &excelize.Alignment{Horizontal: "right", Indent: 1}
	case !l.Title && !l.Bold:
		style.Alignment = &excelize.Alignment{Horizontal: "left"}
	}
	sides := []string{}
	if l.Under {
		sides = []string{"bottom"}
	}
	if l.Input {
		sides = []string{"left", "right", "top", "bottom"}
	}
	for _, side := range sides {
		style.Border = append(style.Border, excelize.Border{Type: side, Color: "000000", Style: 1})
	}
	if l.Law {
		style.Fill = excelize.Fill{Type: "pattern", Pattern: dotted, Color: []string{"000000"}}
	}
	return style
}
