package farmtable

import (
	"fmt"
	"maps"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// place names what can stand once on a farm: a base by tract, commodity and
// county.
type place struct {
	tract, county string
	commodity     crop.Commodity
}

// gatheredBase is a base with its producers.
type gatheredBase struct {
	place  place
	base   farm.Base
	shares []*gatheredShare
}

// gatheredShare is the part of one producer in a base.
type gatheredShare struct {
	row   Row // the first
	years map[crop.CropYear]bool
}

// baseOf returns the base of a row, new where no row spoke of it. fits is false
// where the row stands twice.
func (f *gatheredFarm) baseOf(row Row) (b *gatheredBase, fits bool) {
	at := place{row.Tract, row.County, row.Commodity}
	if row.PhysicalCounty != "" {
		at.county = row.PhysicalCounty
	}
	b, known := f.bases[at]
	if !known {
		b = &gatheredBase{place: at, base: farm.Base{Commodity: row.Commodity, Tract: row.Tract, County: row.PhysicalCounty, BaseAcres: row.BaseAcres}}
		f.bases[at] = b
		f.order = append(f.order, b)
	}
	for _, s := range b.shares {
		if s.row.Producer != row.Producer {
			continue
		}
		if s.years[row.CropYear] {
			f.refuse(row, commodityColumn, fmt.Sprintf("%s of farm %s stands twice, with the same tract, county, crop year and producer", row.Commodity.Name(), row.Farm), fmt.Sprintf("it is also on line %d; join both, or give each its tract, county or producer", s.row.Line))
			return b, false
		}
		s.years[row.CropYear] = true
		if s.row.Share == nil {
			s.row.Share = row.Share
		}
		return b, true
	}
	b.shares = append(b.shares, &gatheredShare{row, map[crop.CropYear]bool{row.CropYear: true}})
	return b, true
}

// takeBase takes what a row says of its base.
func (f *gatheredFarm) takeBase(row Row, b *gatheredBase) {
	what := row.Commodity.Name() + " on farm " + row.Farm
	news := func(c column) bool { return f.agrees(row, fact{column: c, place: b.place}, what) }
	news(baseAcresColumn)
	f.agrees(row, fact{column: shareColumn, place: b.place, producer: row.Producer}, what)
	if news(paymentYieldColumn) {
		b.base.PaymentYield = row.PaymentYield
		if row.Tract == "" {
			f.oneYield(row)
		}
	}
	if news(irrigatedShareColumn) {
		b.base.IrrigatedShare = row.IrrigatedShare
	}
	if news(crpReductionColumn) {
		b.base.CRPReduction = *row.CRPReduction
	}
}

// oneYield refuses a second payment yield of a commodity where no tract tells
// the bases apart: a farm has one.
func (f *gatheredFarm) oneYield(row Row) {
	about := fact{column: paymentYieldColumn, commodity: row.Commodity}
	text := show(*row.PaymentYield)
	if earlier, known := f.said.of(about); known && earlier.text != text {
		f.refuse(row, paymentYieldColumn, fmt.Sprintf("%s on farm %s has two PLC yields, %s and %s on line %d", row.Commodity.Name(), row.Farm, text, earlier.text, earlier.line), "a farm has one PLC yield for a crop. If it differs by tract, give the tracts")
		return
	}
	f.said.put(about, saying{text, row.Line})
}

// finishShares turns the producers of a base into its shares.
func (f *gatheredFarm) finishShares(b *gatheredBase) {
	what := b.base.Commodity.Name() + " on farm " + f.farm.Number
	b.base.Shares = farm.Shares{}
	sum := 0.0
	for _, s := range b.shares {
		id, share := s.row.Producer, s.row.Share
		if id == "" && len(f.named) > 0 {
			f.refuse(s.row, producerColumn, what+" has no producer, while other rows of the operation name one", "name the producer in every row")
			return
		}
		if id == "" {
			id = farm.SoleProducer
		}
		if share == nil && len(b.shares) > 1 {
			f.refuse(s.row, shareColumn, fmt.Sprintf("%s has several producers and no share of %s", what, id), "give each producer's part: 0.6 or 60%")
			return
		}
		if share == nil {
			whole := 1.0
			share = &whole
		}
		b.base.Shares[id] = *share
		sum += *share
		if fault := farm.CheckTotal("shares of "+what, sum); fault != nil {
			f.refuse(s.row, shareColumn, fault.Reason, fault.Hint)
			return
		}
	}
}

// shareAlike states the shares once for the farm where all bases have the same.
func (f *gatheredFarm) shareAlike() {
	for _, b := range f.farm.Bases {
		if !maps.Equal(b.Shares, f.farm.Bases[0].Shares) {
			return
		}
	}
	if len(f.farm.Bases) == 0 {
		return
	}
	shares := f.farm.Bases[0].Shares
	f.farm.Shares.Every = &shares
	for i := range f.farm.Bases {
		f.farm.Bases[i].Shares = nil
	}
}
