package farmtable

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

var (
	plainNumber   = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$`)
	groupedNumber = regexp.MustCompile(`^[+-]?[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?$`)
	decimalComma  = regexp.MustCompile(`^[+-]?[0-9.]*,[0-9]+$`)
)

// mostDigits is the most digits a number may have, written in full: a judgement.
const mostDigits = 30

// isDash reports whether a cell says that there is no value.
func isDash(text string) bool {
	switch strings.ToLower(text) {
	case "-", "--", "n/a", "na", "none":
		return true
	}
	return false
}

// number reads a cell; nil where it is blank or refused.
func (r *rowReader) number(c column) *float64 { return r.numberTimes(c, r.cells[c], "") }

// numberTimes reads the text of a cell as a number times a power of ten, "" or
// "e-2".
func (r *rowReader) numberTimes(c column, text, power string) *float64 {
	if text == "" || isDash(text) {
		return nil
	}
	plain := strings.TrimSpace(strings.TrimPrefix(text, "$"))
	ambiguous := r.comma && !strings.Contains(plain, ".")
	if groupedNumber.MatchString(plain) && !ambiguous {
		plain = strings.ReplaceAll(plain, ",", "")
	}
	wrong := fmt.Sprintf("%s is %q", columns[c].name, r.cells[c])
	switch {
	case decimalComma.MatchString(plain):
		r.refuse(c, wrong+", with a comma that may stand for decimals or for thousands", "write decimals with a point: 1234.5")
		return nil
	case !plainNumber.MatchString(plain) || power != "" && strings.ContainsAny(plain, "eE"):
		r.refuse(c, wrong+", not a number", "write a number alone, without unit or words: 120.5")
		return nil
	}
	number, err := strconv.ParseFloat(plain+power, 64)
	if err != nil || len(show(number)) > mostDigits {
		r.refuse(c, wrong+", with too many digits", "look for digits too many")
		return nil
	}
	number += 0 // -0 becomes 0
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
	text, power := r.cells[c], ""
	if number, ok := strings.CutSuffix(text, "%"); ok {
		text, power = strings.TrimSpace(number), "e-2"
		if text == "" {
			text = "%"
		}
	}
	share := r.numberTimes(c, text, power)
	if share == nil || !r.check(c, farm.CheckShare(columns[c].name, *share)) {
		return nil
	}
	return share
}

// truth reads yes or no.
func (r *rowReader) truth(c column) *bool {
	truth := false
	switch text := r.cells[c]; strings.ToLower(text) {
	case "", "-", "--", "n/a", "na":
		return nil
	case "yes", "y", "true", "t", "1":
		truth = true
	case "no", "n", "false", "f", "0":
	default:
		r.refuse(c, fmt.Sprintf("%s is %q", columns[c].name, text), "write yes or no")
		return nil
	}
	return &truth
}

// elections are the programs by their folded spellings. ARC alone is not among
// them: it may be either.
var elections = map[string]farm.Program{
	"plc": farm.PLC, "pricelosscoverage": farm.PLC,
	"arcco": farm.ARCCO, "arccounty": farm.ARCCO, "arccountyoption": farm.ARCCO, "agricultureriskcoveragecounty": farm.ARCCO, "agricultureriskcoveragecountyoption": farm.ARCCO,
	"arcic": farm.ARCIC, "arcindividual": farm.ARCIC, "arcindividualoption": farm.ARCIC, "agricultureriskcoverageindividual": farm.ARCIC, "agricultureriskcoverageindividualoption": farm.ARCIC,
}

var contracts = map[string]farm.Contract{"open": farm.Open, "signed": farm.Signed, "missed": farm.Missed}

var leases = map[string]farm.Lease{
	"cash": farm.CashLease, "cashlease": farm.CashLease, "cashrent": farm.CashLease,
	"share": farm.ShareLease, "sharelease": farm.ShareLease, "sharerent": farm.ShareLease, "cropshare": farm.ShareLease,
	"flex": farm.FlexLease, "flexlease": farm.FlexLease, "flexrent": farm.FlexLease,
}

// readElection reads what stands for one of a few words.
func (r *rowReader) readElection() {
	r.row.Election = word(r, electionColumn, elections, "write PLC, ARC-CO or ARC-IC; ARC alone may be either of two")
	r.row.Contract = word(r, contractColumn, contracts, "write open, signed or missed")
	r.row.Lease = word(r, leaseColumn, leases, "write cash, share or flex, or leave it blank")
}

// word reads one of the known words in any case; "" where the cell is blank or
// refused.
func word[W ~string](r *rowReader, c column, known map[string]W, hint string) W {
	text := r.cells[c]
	if text == "" || isDash(text) {
		return ""
	}
	found, ok := known[fold(text)]
	if !ok {
		r.refuse(c, fmt.Sprintf("%s is %q", columns[c].name, text), hint)
	}
	return found
}
