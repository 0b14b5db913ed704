package cells

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// Look is how a cell is shown: in black and white, on paper as on screen.
type Look struct {
	Format string  // of numbers
	Title  bool    // of a sheet
	Size   float64 // of the type, in points; 0: the usual one
	Bold   bool
	Wrap   bool
	Under  bool // ruled below
	Right  bool // a figure written as text
	Center bool
	Blue   bool // dark blue
	Red    bool // dark red: a warning, and nothing else
	Input  bool // bordered and unlocked
	Law    bool // gray ground, of dots: a figure of the law
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

// darkBlue tells one line from another, darkRed a warning.
const (
	darkBlue = "1F3864"
	darkRed  = "9C1C1C"
)

// style is the look in the library's words.
func (l Look) style() *excelize.Style {
	const titleSize, dotted = 14, 18
	style := &excelize.Style{Font: &excelize.Font{Family: typeface, Bold: l.Bold || l.Title, Size: l.Size}, Protection: &excelize.Protection{Locked: !l.Input}}
	if l.Title && l.Size == 0 {
		style.Font.Size = titleSize
	}
	if l.Blue {
		style.Font.Color = darkBlue
	}
	if l.Red {
		style.Font.Color = darkRed
	}
	if l.Format != "" {
		format := l.Format
		style.CustomNumFmt = &format
	}
	style.Alignment = l.alignment()
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

// alignment puts figures to the right, words to the left and column titles in the middle.
func (l Look) alignment() *excelize.Alignment {
	switch {
	case l.Wrap:
		return &excelize.Alignment{WrapText: true, Vertical: "bottom", Horizontal: "center"}
	case l.Center:
		return &excelize.Alignment{Horizontal: "center", Vertical: "center"}
	case l.Size > 0 && l.Format == "" && !l.Right:
		return &excelize.Alignment{Horizontal: "left", Vertical: "center"}
	case l.Size > 0 && l.Format != "":
		return &excelize.Alignment{Horizontal: "right", Vertical: "center", Indent: 1}
	case l.Format != "" || l.Right:
		return &excelize.Alignment{Horizontal: "right", Indent: 1}
	case !l.Title && !l.Bold:
		return &excelize.Alignment{Horizontal: "left"}
	}
	return nil
}
