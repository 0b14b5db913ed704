package workbook

import (
	"slices"

	"fencerow/io/show/workbook/cells"
)

// chartRows is the height of a chart with its margin, in rows of the sheet.
const chartRows = 17

// chartOf adds the chart of a commodity base beside its table.
func (p *otherPrices) chartOf(key commodityBaseKey, top int, prices cells.Place, paid commodityBasePlaces) {
	column := func(c int) cells.Span {
		return cells.Between(cells.At(p.Sheet, c, prices.Row), cells.At(p.Sheet, c, prices.Row+len(otherParts)-1))
	}
	c := cells.Chart{Title: cells.CommodityBaseName(p.results.bases.arithmetic.inputs.farmName(key.farm), key.commodity, key.cropYear), At: cells.At(p.Sheet, chartColumn, top), Prices: column(otherPriceColumn)}
	if paid.plc.Known() {
		c.Series = append(c.Series, cells.Series{Values: column(otherPLCColumn), Marker: "circle"})
	}
	if paid.arc.Known() {
		middle := otherARCColumn + slices.Index(otherParts[:], 1)
		c.Series = append(c.Series, cells.Series{Values: column(middle), Dashed: true, Marker: "square"})
	}
	if len(c.Series) > 0 {
		p.Charts = append(p.Charts, c)
	}
}
