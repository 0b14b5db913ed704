package cells

import (
	"github.com/xuri/excelize/v2"
)

// Chart is a picture of payments against price.
type Chart struct {
	Title         string
	At            Place
	Width, Height uint    // in pixels; 0: the usual ones
	Size          float64 // of its type, in points; 0: the usual one
	Across, Up    string  // words of the axes; "": none
	Series        []Series
}

// Series is one line of a chart; Name is the cell with its words.
type Series struct {
	Name           Place
	Prices, Values Span
	Dashed, Blue   bool
	Thin           bool
	Marker         string // "": none
}

// native is the chart in the library's words: lines distinguished by dash and marker.
func (c Chart) native() *excelize.Chart {
	size, width, height := c.Size, c.Width, c.Height
	if size == 0 {
		size = 10
	}
	if width == 0 {
		width, height = 520, 310
	}
	black := excelize.Font{Color: "000000", Size: size}
	text := func(s string) excelize.ChartTitle {
		if s == "" {
			return excelize.ChartTitle{}
		}
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: s, Font: &excelize.Font{Size: size, Color: "000000"}}}}
	}
	native := &excelize.Chart{
		Type: excelize.Scatter, Title: text(c.Title), Format: excelize.GraphicOptions{Positioning: "oneCell"}, Legend: excelize.ChartLegend{Position: "bottom", Font: &black},
		Dimension: excelize.ChartDimension{Width: width, Height: height}, ShowBlanksAs: "gap",
		XAxis: excelize.ChartAxis{Font: black, Title: text(c.Across), NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0.0#"}},
		YAxis: excelize.ChartAxis{Font: black, Title: text(c.Up), MajorGridLines: true},
	}
	for _, s := range c.Series {
		native.Series = append(native.Series, s.native())
	}
	return native
}

func (s Series) native() excelize.ChartSeries {
	color, dash, width := "000000", excelize.LineDashSolid, 1.5
	if s.Blue {
		color = darkBlue
	}
	if s.Dashed {
		dash = excelize.LineDashSysDash
	}
	switch {
	case s.Thin:
		width, dash = 1, excelize.LineDashSysDot
	case s.Marker == "" && s.Dashed:
		width = 2 // thinner than a line that it lies on
	case s.Marker == "":
		width = 3
	}
	ink := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
	marker, size := excelize.ChartMarker{Symbol: "none"}, 5
	if s.Thin {
		size = 10 // it is the points that count
	}
	if s.Marker != "" {
		marker = excelize.ChartMarker{Symbol: s.Marker, Size: size, Fill: ink}
	}
	return excelize.ChartSeries{
		Name: s.Name.Absolute(), Categories: s.Prices.Absolute(), Values: s.Values.Absolute(),
		Fill: ink, Line: excelize.LineOptions{Type: excelize.LineSolid, Dash: dash, Width: width, Fill: ink}, Marker: marker,
	}
}
