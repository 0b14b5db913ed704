package explain

import (
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// PriceMove is a national price before and after newer files were taken in, USD per unit.
type PriceMove struct {
	Commodity crop.Commodity `json:"commodity"`
	CropYear  crop.CropYear  `json:"crop_year"`
	Before    *PriceOnDate   `json:"before"` // nil: there was none
	After     PriceOnDate    `json:"after"`
	Change    *answer.Price  `json:"change"` // after less before; nil: there was none
}

// PriceOnDate is a national price as it stood at one date.
type PriceOnDate struct {
	Price  answer.Price   `json:"price"`
	Status crop.Status    `json:"status"`
	AsOf   string         `json:"as_of"`
	Source string         `json:"source"`
	Months int            `json:"months"`       // of the marketing year that are known
	Sold   *answer.Chance `json:"months_share"` // share of the year's sales in them; nil: no month is known
}

// MovedPrices lists the prices of commodities and crop years under the program in which
// two markets differ: in price, date or months known.
func MovedPrices(before, after farm.Market) []PriceMove {
	moved := []PriceMove{}
	span := farm.HistoryYears()
	for _, c := range crop.Commodities() {
		for y := span.First; y <= span.Last; y++ {
			now := priceOnDate(after, c, y)
			if now == nil {
				continue
			}
			was := priceOnDate(before, c, y)
			if was == nil || was.Price != now.Price || was.AsOf != now.AsOf || was.Months != now.Months || was.Status != now.Status || share(was.Sold) != share(now.Sold) {
				moved = append(moved, PriceMove{c, y, was, *now, change(was, now)})
			}
		}
	}
	return moved
}

// change is by how much a price moved; nil where there was none.
func change(was, now *PriceOnDate) *answer.Price {
	if was == nil {
		return nil
	}
	return &answer.Price{Value: program.Round(now.Price.Value-was.Price.Value, now.Price.Decimals), Decimals: now.Price.Decimals}
}

// share is a share that may be missing, then 0.
func share(of *answer.Chance) answer.Chance {
	if of == nil {
		return 0
	}
	return *of
}

// priceOnDate is a price of a market; nil where it has none.
func priceOnDate(m farm.Market, c crop.Commodity, y crop.CropYear) *PriceOnDate {
	f, has := m.Price(c, y)
	if !has {
		return nil
	}
	terms, err := program.TermsFor(c, y)
	if err != nil {
		return nil
	}
	p := &PriceOnDate{Price: answer.Price{Value: f.Value, Decimals: terms.PriceDecimals}, Status: f.Status, AsOf: m.PriceDate(c, y).Format(time.DateOnly), Source: f.Source}
	if _, known := m.MYA[c][y]; known {
		return p
	}
	sold := 0.0
	for _, month := range m.Months[c][y] {
		p.Months++
		sold += month.Weight
	}
	if p.Months > 0 {
		p.Sold = answer.ChanceOf(sold)
	}
	return p
}
