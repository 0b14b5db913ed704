package backtest

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// fillRivals sets what other ways of choosing came to pay on each row: the program that
// paid more in the newest earlier year in which they differed, and the parts in which the
// nation had enrolled. Where no earlier year tells, the first is the second.
func (s Setup) fillRivals(rows []testedRow) {
	type unit struct {
		knowledge Knowledge
		farm.PastUnit
	}
	order := make([]int, len(rows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rows[a].row.CropYear - rows[b].row.CropYear })
	won := map[unit]farm.Program{}
	for _, i := range order {
		r := &rows[i]
		part := s.enrolledInPLC(r.row.Commodity, r.row.CropYear)
		r.enrolled = part*r.plc + (1-part)*r.arc
		u := unit{r.knowledge, r.row.PastUnit}
		switch won[u] {
		case farm.PLC:
			r.winner = r.plc
		case farm.ARCCO:
			r.winner = r.arc
		default:
			r.winner = r.enrolled
		}
		switch {
		case r.plc > r.arc:
			won[u] = farm.PLC
		case r.arc > r.plc:
			won[u] = farm.ARCCO
		}
	}
}

// enrolledInPLC returns the part of the base acres enrolled in PLC or ARC-CO that was in
// PLC, in a crop year or the next one that is known: elections of 2014 held until 2018.
func (s Setup) enrolledInPLC(c crop.Commodity, y crop.CropYear) crop.Share {
	const newest = 3 // years on that are looked at
	for at := y; at <= y+newest; at++ {
		if e, has := s.Past.Enrolled[c][at]; has && e.PLC+e.ARCCO > 0 {
			return e.PLC / (e.PLC + e.ARCCO)
		}
	}
	return 0
}
