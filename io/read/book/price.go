package book

import (
	"fmt"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Market returns the imported national prices: FSA's first final price, else
// WASDE's final one, as known; of projections the newest; and the months of marketing
// years that have no final price. ok is false where the book has no prices.
func (b *Book) Market() (m farm.Market, ok bool, err error) {
	rows, err := b.db.Query("SELECT p.commodity, p.crop_year, p.kind, p.number, f.layout, f.edition FROM price p JOIN file f ON f.id = p.file ORDER BY f.edition")
	if err != nil {
		return m, false, fmt.Errorf("county book %s: %w", b.path, err)
	}
	defer rows.Close()
	months := monthsOf{}
	m = farm.Market{MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{}, Outlook: map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}, Printed: map[crop.Commodity]map[crop.CropYear]time.Time{},
		Months: map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{}}
	for rows.Next() {
		var c crop.Commodity
		var y crop.CropYear
		var kind, layout, edition string
		var price float64
		if err := rows.Scan(&c, &y, &kind, &price, &layout, &edition); err != nil {
			return m, false, err
		}
		asOf, err := time.Parse(time.DateOnly, edition)
		if err != nil {
			return m, false, err
		}
		agency, which, _ := strings.Cut(kind, " ")
		ok = true
		if months.add(c, y, which, price) {
			continue
		}
		source := fmt.Sprintf("%s %s, %s, imported", agency, layout, edition)
		if which == finalPrice {
			addKnown(m, c, y, farm.Figure{Value: price, Status: crop.Agency, Source: source}, agency, asOf)
		} else {
			if m.Outlook[c] == nil {
				m.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
			}
			m.Outlook[c][y] = farm.PriceOutlook{AsOf: asOf, Figure: farm.Figure{Value: price, Status: crop.Projected, Source: source}} // the newest comes last
		}
		if asOf.After(m.AsOf) {
			m.AsOf, m.Source = asOf, source
		}
	}
	for c, years := range m.MYA {
		for y := range years {
			delete(m.Outlook[c], y)
			delete(months[c], y)
		}
	}
	for c, years := range months {
		m.Months[c] = map[crop.CropYear][]farm.MonthPrice{}
		for y := range years {
			if known := months.known(c, y); len(known) > 0 {
				m.Months[c][y] = known
			}
		}
	}
	return m, ok, rows.Err()
}

// addKnown keeps a final price; FSA's goes before others.
func addKnown(m farm.Market, c crop.Commodity, y crop.CropYear, f farm.Figure, agency string, asOf time.Time) {
	if m.MYA[c] == nil {
		m.MYA[c], m.Printed[c] = map[crop.CropYear]farm.Figure{}, map[crop.CropYear]time.Time{}
	}
	if _, has := m.MYA[c][y]; !has || agency == "FSA" {
		m.MYA[c][y], m.Printed[c][y] = f, asOf
	}
}
