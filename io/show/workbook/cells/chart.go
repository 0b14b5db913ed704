package cells

import (
	"github.com/xuri/excelize/v2"
)

// Chart is a picture of payments against price.
type Chart struct {
	Title  string
	At     Place
	Prices Span
	Series []Series
}

// Series is one line of a chart; its name stands in the cell above the values.
type Series struct {
	Values Span
	Dashed bool
	Marker string
}

// native is the chart in the library's words: black lines distinguished by dash and
// marker.
func (c Chart) native() *excelize.Chart {
	black := excelize.Font{Color: "000000"}
	ink := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"000000"}}
	text := func(s string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: s, Font: &excelize.Font{Size: 10, Color: "000000"}}}}
	}
	native := &excelize.Chart{
		Type: excelize.Scatter, Title: text(c.Title), Legend: excelize.ChartLegend{Position: "bottom"},
		Dimension: excelize.ChartDimension{Width: 520, Height: 310}, ShowBlanksAs: "gap",
		XAxis: excelize.ChartAxis{Font: black, Title: text("national price, dollars per unit")},
		YAxis: excelize.ChartAxis{Font: black, Title: text("dollars per base acre"), MajorGridLines: true},
	}
	for _, s := range c.Series {
		dash := excelize.LineDashSolid
		if s.Dashed {
			dash = excelize.LineDashDash
		}
		name := Place{s.Values.From.On, s.Values.From.Column, s.Values.From.Row - 1}
		native.Series = append(native.Series, excelize.ChartSeries{
			Name: name.Absolute(), Categories: c.Prices.Absolute(), Values: s.Values.Absolute(),
			Fill: ink, Line: excelize.LineOptions{Type: excelize.LineSolid, Dash: dash, Width: 1.5, Fill: ink},
			Marker: excelize.ChartMarker{Symbol: s.Marker, Size: 5, Fill: ink},
		})
	}
	return native
}
