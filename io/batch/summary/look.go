package summary

import (
	"github.com/xuri/excelize/v2"
)

// look is how a cell is shown.
type look struct {
	kind                            Kind
	title, head, total, wrap, cents bool
	right                           bool // a number
	apart                           bool // a text beside a column of numbers
	list                            bool // a line of the list
}

// formats are those of numbers, by kind.
var formats = [...]string{
	Count: "#,##0", Acres: "#,##0.00", Dollars: `$#,##0;-$#,##0`, PerAcre: withCents, Part: "0%", Day: "mmm d, yyyy", Year: "0",
}

// withCents shows money to the cent.
const withCents = `$#,##0.00;-$#,##0.00`

// fewDollars is the amount under which cents are shown, USD.
const fewDollars = 5

// small reports whether a value is shown with its cents.
func (k Kind) small(value any) bool {
	x, is := value.(float64)
	return is && k == Dollars && x > -fewDollars && x < fewDollars && x != 0
}

// style is the look in the library's words.
func (l look) style() *excelize.Style {
	const titleSize, size = 14, 10
	style := &excelize.Style{Font: &excelize.Font{Bold: l.title || l.head || l.total, Size: size, Family: "Arial"}, Alignment: &excelize.Alignment{Vertical: "top", WrapText: l.wrap || l.head}}
	if l.title {
		style.Font.Size = titleSize
	}
	if l.head {
		style.Alignment.Vertical = "bottom"
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E7E6E6"}}
		style.Border = []excelize.Border{{Type: "bottom", Color: "000000", Style: 1}}
	}
	switch {
	case l.right:
		style.Alignment.Horizontal = "right"
	case l.apart:
		style.Alignment.Horizontal, style.Alignment.Indent = "left", 1
	default:
		style.Alignment.Horizontal = "left"
	}
	if l.list {
		style.Border = []excelize.Border{{Type: "bottom", Color: "D9D9D9", Style: 1}}
	}
	if l.total {
		style.Border = []excelize.Border{{Type: "top", Color: "000000", Style: 1}}
	}
	if !l.head && !l.title && l.kind > Words {
		format := formats[l.kind]
		if l.cents {
			format = withCents
		}
		style.CustomNumFmt = &format
	}
	return style
}

// right reports whether a kind stands at the right of its column, as numbers that are added
// or held against each other do.
func (k Kind) right() bool { return k > Words && k != Year }

// looks are the styles in use.
type looks struct {
	book *excelize.File
	ids  map[look]int
}

func (s looks) of(l look) (int, error) {
	if id, made := s.ids[l]; made {
		return id, nil
	}
	id, err := s.book.NewStyle(l.style())
	s.ids[l] = id
	return id, err
}
