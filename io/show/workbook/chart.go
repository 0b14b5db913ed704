package workbook

import (
	"slices"

	"fencerow/io/show/workbook/cells"
)

// chartRows is the height of a chart with its margin, in rows of the sheet.
const chartRows = 17

// chartOf adds the chart of a commodity base beside its table.
func (p *otherPrices) chartOf(key commodityBaseKey, top int, prices cells.Place, paid commodityBasePlaces) {
	line := func(c int) cells.Series {
		column := func(c int) cells.Span {
			return cells.Between(cells.At(p.Sheet, c, prices.Row), cells.At(p.Sheet, c, prices.Row+len(otherParts)-1))
		}
		return cells.Series{Name: cells.At(p.Sheet, c, prices.Row-1), Prices: column(otherPriceColumn), Values: column(c)}
	}
	c := cells.Chart{Title: cells.CommodityBaseName(p.results.bases.inputs.farmName(key.farm), key.commodity, key.cropYear), At: cells.At(p.Sheet, chartColumn, top), Across: "national price, dollars per unit", Up: "dollars per base acre"}
	if paid.plc.Known() {
		plc := line(otherPLCColumn)
		plc.Marker = "circle"
		c.Series = append(c.Series, plc)
	}
	if paid.arc.Known() {
		arc := line(otherARCColumn + slices.Index(otherParts[:], 1))
		arc.Dashed, arc.Marker = true, "square"
		c.Series = append(c.Series, arc)
	}
	if len(c.Series) > 0 {
		p.Charts = append(p.Charts, c)
	}
}
