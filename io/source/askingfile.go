package source

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Operation returns the operation file that the answers stand for. What was skipped is
// not in it; a comment says so.
func (a *Asking) Operation() []byte {
	o := firstOperation()
	for _, asked := range a.farms {
		o.Farms = append(o.Farms, asked.made())
	}
	return operationText(o)
}

// firstOperation is an operation of one person, still without farms.
func firstOperation() farm.Operation {
	return farm.Operation{Producers: []farm.Producer{{ID: operator, Kind: farm.Person}}}
}

// operator is the producer that a first file has.
const operator = "operator"

// made is the farm as far as it is known.
func (asked askedFarm) made() farm.Farm {
	f := farm.Farm{Number: asked.number, County: asked.county, Record: map[crop.Commodity]farm.Program{}, BeforeNotice: asked.beforeNotice, Notice: map[crop.Commodity]farm.NoticeBase{}}
	f.Shares.Every = &farm.Shares{operator: asked.share}
	for _, b := range asked.bases {
		f.Bases = append(f.Bases, farm.Base{Commodity: b.commodity, BaseAcres: b.acres, PaymentYield: b.yield, IrrigatedShare: b.irrigated})
		f.Record[b.commodity] = b.election
		if b.notice != nil {
			f.Notice[b.commodity] = *b.notice
		}
	}
	return f
}
