package book

import (
	"fmt"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// priceRow is one national price as it lies in the book.
type priceRow struct {
	commodity     crop.Commodity
	cropYear      crop.CropYear
	agency, which string // of its kind: "FSA", "final"; "NASS", "month 2026-09"
	number        float64
	layout        string
	edition       time.Time // of its file
}

// prices gives each national price that passes the checks, by the edition of its file.
func (b *Book) prices(k *checks, each func(*priceRow)) error {
	rows, err := b.db.Query("SELECT p.commodity, p.crop_year, p.kind, p.number, f.layout, f.edition FROM price p JOIN file f ON f.id = p.file ORDER BY f.edition")
	if err != nil {
		return b.told(err)
	}
	defer rows.Close()
	for rows.Next() {
		var p priceRow
		var kind, edition string
		if err := rows.Scan(&p.commodity, &p.cropYear, &kind, &p.number, &p.layout, &edition); err != nil {
			k.refuse(nil, unread(rows, "crop", "crop year", "kind", "price", "layout", "edition"))
			continue
		}
		p.agency, p.which, _ = strings.Cut(kind, " ")
		if reason := p.impossible(edition); reason != "" {
			k.refuse(nil, reason)
			continue
		}
		each(&p)
	}
	return b.told(rows.Err())
}

// impossible says why no file of an agency can have given a price, and reads the edition;
// "" where one can.
func (p *priceRow) impossible(edition string) string {
	if p.commodity.Index() < 0 {
		return fmt.Sprintf("crop %q of a price is not known", shortened(string(p.commodity)))
	}
	what := fmt.Sprintf("the %s of %s, crop year %d,", shortened(p.agency+" "+p.which), p.commodity.Name(), p.cropYear)
	var err error
	fault := farm.HistoryYears().Check("the crop year of "+what, p.cropYear)
	isWeight := strings.HasPrefix(p.which, monthWeight+" ")
	switch {
	case fault != nil:
	case p.agency != "FSA" && p.agency != "WASDE" && p.agency != "NASS" || !p.knownKind():
		return fmt.Sprintf("a price of %s has the kind %q, which is not known", p.commodity.Name(), shortened(p.agency+" "+p.which))
	case isWeight:
		fault = farm.CheckShare(what, p.number)
	default:
		fault = farm.CheckPrice(what, p.commodity, p.number)
	}
	if fault != nil {
		return fault.Reason
	}
	if p.edition, err = time.Parse(time.DateOnly, edition); err != nil {
		return fmt.Sprintf("the edition of %s is %q", what, shortened(edition))
	}
	return ""
}

// knownKind reports whether the kind of a price is one of those imported.
func (p *priceRow) knownKind() bool {
	which, month, isMonth := strings.Cut(p.which, " ")
	if !isMonth {
		return which == finalPrice || which == projectedPrice
	}
	_, err := time.Parse(monthForm, month)
	return err == nil && (which == monthPrice || which == monthWeight)
}

// Market returns the imported national prices: FSA's first final price, else
// WASDE's final one, as known; of projections the newest; and the months of marketing
// years that have no final price. ok is false where the book has no prices. A price that
// cannot be gives farm.Mistakes.
func (b *Book) Market() (m farm.Market, ok bool, err error) {
	months, k := monthsOf{}, newChecks(b.path, nil)
	m = farm.Market{MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{}, Outlook: map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}, Printed: map[crop.Commodity]map[crop.CropYear]time.Time{},
		Months: map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{}}
	err = b.prices(k, func(p *priceRow) {
		ok = true
		if months.add(p.commodity, p.cropYear, p.which, p.number) {
			return
		}
		source := fmt.Sprintf("%s %s, %s, imported", p.agency, p.layout, p.edition.Format(time.DateOnly))
		if p.which == finalPrice {
			addKnown(m, p.commodity, p.cropYear, farm.Figure{Value: p.number, Status: crop.Agency, Source: source}, p.agency, p.edition)
		} else {
			if m.Outlook[p.commodity] == nil {
				m.Outlook[p.commodity] = map[crop.CropYear]farm.PriceOutlook{}
			}
			m.Outlook[p.commodity][p.cropYear] = farm.PriceOutlook{AsOf: p.edition, Figure: farm.Figure{Value: p.number, Status: crop.Projected, Source: source}} // the newest comes last
		}
		if p.edition.After(m.AsOf) {
			m.AsOf, m.Source = p.edition, source
		}
	})
	if err == nil {
		err = k.err(b)
	}
	if err != nil {
		return farm.Market{}, false, err
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
	return m, ok, nil
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
