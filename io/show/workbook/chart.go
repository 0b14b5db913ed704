package workbook

import (
	"slices"

	"github.com/xuri/excelize/v2"
)

// chartRows is the height of a chart with its margin, in rows of the sheet.
const chartRows = 17

// chart is a picture of payments against price.
type chart struct {
	title  string
	at     place
	prices span
	series []series
}

// series is one line of a chart; its name stands in the cell above the values.
type series struct {
	values span
	dash   excelize.LineDashType
	marker string
}

// chartOf adds the chart of a commodity base beside its table.
func (p *otherPrices) chartOf(key commodityBaseKey, top int, prices place, paid commodityBasePlaces) {
	column := func(c int) span {
		return span{place{p.sheet, c, prices.row}, place{p.sheet, c, prices.row + len(otherParts) - 1}}
	}
	c := chart{title: commodityBaseName(p.results.bases.arithmetic.inputs.farmName(key.farm), key.commodity, key.cropYear), at: place{p.sheet, chartColumn, top}, prices: column(otherPriceColumn)}
	if paid.plc.known() {
		c.series = append(c.series, series{column(otherPLCColumn), excelize.LineDashSolid, "circle"})
	}
	if paid.arc.known() {
		middle := otherARCColumn + slices.Index(otherParts[:], 1)
		c.series = append(c.series, series{column(middle), excelize.LineDashDash, "square"})
	}
	if len(c.series) > 0 {
		p.charts = append(p.charts, c)
	}
}

// native is the chart in the library's words: black lines distinguished by dash and
// marker.
func (c chart) native() *excelize.Chart {
	black := excelize.Font{Color: "000000"}
	ink := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"000000"}}
	text := func(s string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: s, Font: &excelize.Font{Size: 10, Color: "000000"}}}}
	}
	native := &excelize.Chart{
		Type: excelize.Scatter, Title: text(c.title), Legend: excelize.ChartLegend{Position: "bottom"},
		Dimension: excelize.ChartDimension{Width: 520, Height: 310}, ShowBlanksAs: "gap",
		XAxis: excelize.ChartAxis{Font: black, Title: text("national price, dollars per unit")},
		YAxis: excelize.ChartAxis{Font: black, Title: text("dollars per base acre"), MajorGridLines: true},
	}
	for _, s := range c.series {
		name := place{s.values.from.on, s.values.from.column, s.values.from.row - 1}
		native.Series = append(native.Series, excelize.ChartSeries{
			Name: name.absolute(), Categories: c.prices.absolute(), Values: s.values.absolute(),
			Fill: ink, Line: excelize.LineOptions{Type: excelize.LineSolid, Dash: s.dash, Width: 1.5, Fill: ink},
			Marker: excelize.ChartMarker{Symbol: s.marker, Size: 5, Fill: ink},
		})
	}
	return native
}
