package farm

import "fencerow/program/crop"

// CountySeries says which series of a county's yields a figure belongs to: which crop
// years it may name, and how low it can be. Readers of county files and of the county book
// check their figures by it.
type CountySeries int

// The series.
const (
	BenchmarkYields CountySeries = iota // benchmark yields, and the five adjusted yields of one: by program year
	HarvestYields                       // of single harvests: actual yields, and the series of RMA and NASS
	PlugYields                          // yields that stand in for one that is not known
)

// Years returns the crop years that a figure of the series may name.
func (s CountySeries) Years() Span {
	if s == BenchmarkYields {
		return ProgramYears()
	}
	return HistoryYears()
}

// CheckYear refuses a crop year outside Years, and a program year in which the crop is not
// covered.
func (s CountySeries) CheckYear(what string, c crop.Commodity, y crop.CropYear) *Fault {
	if fault := s.Years().Check(what, y); fault != nil || s != BenchmarkYields {
		return fault
	}
	return CheckCovered(c, y)
}

// CheckYield refuses a yield, in the unit of c per acre, that is not plausible.
func (s CountySeries) CheckYield(what string, c crop.Commodity, yield crop.Yield) *Fault {
	kind := Usual
	if s == HarvestYields {
		kind = Harvested
	}
	return CheckYield(what, c, kind, yield)
}
