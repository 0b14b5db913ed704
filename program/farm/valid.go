package farm

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"sync"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// Fault is what is wrong with a value and what to do: the Reason and Hint of a
// Mistake, before it is known where the value stands. A nil Fault means right.
type Fault struct {
	Reason, Hint string
}

// Span is a run of crop years that a value may name.
type Span struct {
	First, Last crop.CropYear
}

// ProgramYears returns the crop years that the rows of the law cover: the first
// and last for which a guarantee is stated.
func ProgramYears() Span { return programYears() }

// programYears is asked for every row of a table, of rows of law that never change.
var programYears = sync.OnceValue(func() Span {
	span := Span{First: math.MaxInt}
	for _, f := range law.Rows("guarantee_share") {
		span.First, span.Last = min(span.First, f.First), max(span.Last, f.Last)
	}
	return span
})

// firstHistory is the first crop year of which a price or yield may be given: a
// judgement, long before the series of the agency.
const firstHistory crop.CropYear = 1900

// HistoryYears returns the crop years of which a known price, yield or planting
// may be given.
func HistoryYears() Span { return Span{First: firstHistory, Last: ProgramYears().Last} }

// Check refuses a crop year outside the span.
func (s Span) Check(what string, y crop.CropYear) *Fault {
	if s.First <= y && y <= s.Last {
		return nil
	}
	return &Fault{Reason: fmt.Sprintf("%s is %d", what, y), Hint: fmt.Sprintf("crop years from %d to %d can be given here", s.First, s.Last)}
}

// CheckCovered refuses a crop year in which the law has no reference price for
// the commodity: seed cotton before 2018.
func CheckCovered(c crop.Commodity, y crop.CropYear) *Fault {
	if _, err := law.Find("reference_price", c, y); err == nil {
		return nil
	}
	first := y
	for _, f := range law.Rows("reference_price") {
		if f.Commodity == string(c) && (first == y || f.First < first) {
			first = f.First
		}
	}
	return &Fault{Reason: fmt.Sprintf("%s is no covered crop in crop year %d", c.Name(), y), Hint: fmt.Sprintf("it is covered from crop year %d on", first)}
}

// mostAcres is the size above which acres are taken for a slip: a judgement,
// about twice the largest farms of the country.
const mostAcres crop.Acres = 1_000_000

// CheckAcres refuses negative and absurdly large acres.
func CheckAcres(what string, acres crop.Acres) *Fault {
	switch {
	case acres < 0:
		return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(acres)), Hint: "acres cannot be negative: copy them from the FSA farm record"}
	case acres > mostAcres:
		return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(acres)), Hint: fmt.Sprintf("at most %s acres are read for one farm: copy them from the FSA farm record", show(mostAcres))}
	}
	return nil
}

// CheckBaseAcres refuses base acres that are not above zero.
func CheckBaseAcres(what string, acres crop.Acres) *Fault {
	if acres == 0 {
		return &Fault{Reason: what + " is 0", Hint: "leave out a crop without base on the farm"}
	}
	return CheckAcres(what, acres)
}

// CheckShare refuses what is no part of one.
func CheckShare(what string, share crop.Share) *Fault {
	isShare := func(x float64) bool { return 0 <= x && x <= 1 }
	if isShare(share) {
		return nil
	}
	hint := "a share is from 0 to 1"
	if isShare(share / 100) {
		hint += fmt.Sprintf("; write %s percent as %s", show(share), strconv.FormatFloat(share/100, 'g', 4, 64))
	} else {
		hint += "; write 35 percent as 0.35"
	}
	return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(share)), Hint: hint}
}

// CheckTotal refuses shares that add to more than one.
func CheckTotal(what string, sum crop.Share) *Fault {
	if sum <= 1+crop.Noise {
		return nil
	}
	return &Fault{Reason: fmt.Sprintf("%s add to %s", what, strconv.FormatFloat(sum, 'g', 6, 64)), Hint: "together they can be at most 1. What is missing from 1 belongs to people outside the file"}
}

var (
	countyCode  = regexp.MustCompile(`^[0-9]{5}[A-Z]?$`)
	lostZero    = regexp.MustCompile(`^[0-9]{4}[A-Z]?$`)
	lowerLetter = regexp.MustCompile(`^[0-9]{5}[a-z]$`)
)

// CheckCountyCode refuses what is not five digits with at most one capital
// letter. Whether there is such a county is not asked.
func CheckCountyCode(what, code string) *Fault {
	if countyCode.MatchString(code) {
		return nil
	}
	hint := "write State and county in five digits as FSA does, with the sub-county letter if there is one: 99001, 99003A"
	if lostZero.MatchString(code) {
		hint = "write five digits; a spreadsheet may have dropped the zero of 0" + code
	} else if lowerLetter.MatchString(code) {
		hint = "write the sub-county letter as a capital"
	}
	return &Fault{Reason: fmt.Sprintf("%s is %q", what, code), Hint: hint}
}

// show writes a number as a person would.
func show(number float64) string { return strconv.FormatFloat(number, 'f', -1, 64) }
