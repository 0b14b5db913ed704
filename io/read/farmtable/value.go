package farmtable

import (
	"fmt"
	"strings"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// isDash reports whether a cell says that there is no value.
func isDash(text string) bool {
	switch strings.ToLower(text) {
	case "-", "--", "n/a", "na", "none":
		return true
	}
	return false
}

// number reads a cell; nil where it is blank or refused.
func (r *rowReader) number(c column) *float64 { return r.numberBy(c, spelling.Number) }

// numberBy reads a cell as a number or as a share.
func (r *rowReader) numberBy(c column, read func(string, spelling.Habits) (float64, *farm.Fault)) *float64 {
	text := r.cells[c]
	if text == "" || isDash(text) {
		return nil
	}
	number, fault := read(text, spelling.Habits{DecimalComma: r.comma, Powers: true})
	if fault != nil {
		r.refuse(c, fmt.Sprintf("%s is %q, %s", columns[c].name, text, fault.Reason), fault.Hint)
		return nil
	}
	return &number
}

func (r *rowReader) acres(c column) *crop.Acres {
	acres := r.number(c)
	if acres == nil || !r.check(c, farm.CheckAcres(columns[c].name, *acres)) {
		return nil
	}
	return acres
}

// share reads a part of one, which may be written as a percentage.
func (r *rowReader) share(c column) *crop.Share {
	share := r.numberBy(c, spelling.Share)
	if share == nil || !r.check(c, farm.CheckShare(columns[c].name, *share)) {
		return nil
	}
	return share
}

// truth reads yes or no.
func (r *rowReader) truth(c column) *bool {
	text := r.cells[c]
	if text == "" || isDash(text) && !strings.EqualFold(text, "none") {
		return nil
	}
	truth, ok := spelling.Truth(text)
	if !ok {
		r.refuse(c, fmt.Sprintf("%s is %q", columns[c].name, text), "write yes or no")
		return nil
	}
	return &truth
}

// readElection reads what stands for one of a few words.
func (r *rowReader) readElection() {
	r.row.Election = word(r, electionColumn, spelling.Program, "write PLC, ARC-CO or ARC-IC; ARC alone may be either of two")
	r.row.Contract = word(r, contractColumn, spelling.Contract, "write open, signed or missed")
	r.row.Lease = word(r, leaseColumn, spelling.Lease, "write cash, share or flex, or leave it blank")
}

// word reads one of the known words in any case; "" where the cell is blank or
// refused.
func word[W ~string](r *rowReader, c column, read func(string) (W, bool), hint string) W {
	text := r.cells[c]
	if text == "" || isDash(text) {
		return ""
	}
	found, ok := read(text)
	if !ok {
		r.refuse(c, fmt.Sprintf("%s is %q", columns[c].name, text), hint)
	}
	return found
}
