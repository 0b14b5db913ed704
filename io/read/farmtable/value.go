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
	if r.comma && !r.oneDecimalSign(c, text) {
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

// share reads a part of one. Under a heading of percentages a number is one: 35 is 0.35.
// A number above 0 and at most 1 there may be either, and is refused; so is one above 1
// under a heading of shares.
func (r *rowReader) share(c column) *crop.Share {
	read := spelling.Share
	percent := r.percent[c] && !strings.HasSuffix(r.cells[c], "%")
	if percent {
		read = func(text string, of spelling.Habits) (float64, *farm.Fault) { return spelling.Share(text+"%", of) }
	}
	share := r.numberBy(c, read)
	if share == nil {
		return nil
	}
	name := columns[c].name
	if text := r.cells[c]; percent && *share > 0 && *share <= 1.0/100 {
		r.refuse(c, fmt.Sprintf("%s is %q under a heading of percentages: it may be %s percent or a share of %s", name, text, text, text), fmt.Sprintf("write %s%%, or head the column %s where 1 stands for all", text, name))
		return nil
	}
	if fault := farm.CheckShare(name, *share); fault != nil {
		hint := fault.Hint
		if *share > 1 && *share <= 100 && spelling.IsPlain(r.cells[c]) && !percent {
			hint += fmt.Sprintf(" or %s%%, or put a percent sign into the heading", r.cells[c])
		}
		r.refuse(c, fault.Reason, hint)
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
