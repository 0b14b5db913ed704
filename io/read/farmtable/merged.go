package farmtable

import (
	"fmt"
	"strings"
)

// aboveRow is the row above, of whose cells some may reach down: a spreadsheet's merged cell
// has its value in its first row alone.
type aboveRow struct {
	cells    [columnCount]string
	several  bool // its farm has rows of several producers
	producer string
}

// sameBelow are the columns that say whose farm a row is of and where it lies. A row without a
// farm number takes from the row above what it lacks of them.
var sameBelow = []column{clientColumn, operationColumn, farmColumn, stateColumn, countyColumn, cropYearColumn}

// takeMerged fills in what a merged cell holds once. A row of a commodity and base acres
// that says nothing of whose farm it is and where belongs to the farm above. One that says a
// part of it lacks a cell: it is refused.
func (r *rowReader) takeMerged() {
	cells, above := &r.cells, &r.above
	own := cells[farmColumn]
	whole := cells[commodityColumn] != "" && cells[baseAcresColumn] != ""
	switch {
	case r.spoiled[farmColumn]:
		*above = aboveRow{}
		return
	case own == "" && whole && above.cells[farmColumn] != "" && r.saysNoFarm():
		r.takeFromFarmAbove()
	case own == "":
		return
	}
	producer, same := cells[producerColumn], cells[farmColumn] == above.cells[farmColumn] && cells[countyColumn] == above.cells[countyColumn]
	above.several = same && (above.several || producer != above.producer)
	above.cells, above.producer = *cells, producer
}

// saysNoFarm reports whether a row says nothing of whose farm it is and where it lies.
func (r *rowReader) saysNoFarm() bool {
	for _, c := range sameBelow {
		if c != cropYearColumn && (r.cells[c] != "" || r.spoiled[c]) {
			return false
		}
	}
	return true
}

// takeFromFarmAbove fills in a row that has no farm number. The place of the land goes with the
// tract; producer and share are taken where one producer has the whole farm.
func (r *rowReader) takeFromFarmAbove() {
	for _, c := range sameBelow {
		r.takeAbove(c)
	}
	if r.cells[tractColumn] == "" || r.cells[tractColumn] == r.above.cells[tractColumn] {
		r.takeAbove(tractColumn)
		r.takeAbove(physicalCountyColumn)
	}
	if producer := r.cells[producerColumn]; !r.above.several && (producer == "" || producer == r.above.producer) {
		r.takeAbove(producerColumn)
		r.takeAbove(shareColumn)
	}
}

// takeAbove fills a blank cell from the row above, and counts it.
func (r *rowReader) takeAbove(c column) {
	if r.cells[c] == "" && !r.spoiled[c] && r.above.cells[c] != "" {
		r.cells[c] = r.above.cells[c]
		r.merged[c]++
	}
}

// mergedNote is the note of cells that were filled in from the row above, "" for none.
func (r *Reader) mergedNote() string {
	var all []string
	for c, rows := range r.merged {
		if rows == 0 {
			continue
		}
		name := columns[c].name
		if column(c) == farmColumn {
			name = "farm number"
		}
		if words := fmt.Sprintf("%d row", rows); rows == 1 {
			all = append(all, name+" taken from the row above in "+words)
		} else {
			all = append(all, name+" taken from the row above in "+words+"s")
		}
	}
	return strings.Join(all, "; ")
}
