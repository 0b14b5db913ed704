package spelling

import (
	"strings"

	"fencerow/program/farm"
)

// Fold keeps letters and digits, in lower case.
func Fold(text string) string {
	if isFolded(text) {
		return text
	}
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127 {
			return r
		}
		return -1
	}, strings.ToLower(text))
}

// isFolded reports whether a text has small letters and digits alone.
func isFolded(text string) bool {
	for i := range len(text) {
		if c := text[i]; (c < 'a' || c > 'z') && (c < '0' || c > '9') {
			return false
		}
	}
	return true
}

// Truth returns what yes, no and their like stand for.
func Truth(text string) (truth, ok bool) {
	switch strings.ToLower(text) {
	case "yes", "y", "true", "t", "1":
		return true, true
	case "no", "n", "false", "f", "0":
		return false, true
	}
	return false, false
}

// Noted returns what yes, no, unknown and their like stand for.
func Noted(text string) (n farm.Noted, ok bool) {
	if strings.EqualFold(text, "unknown") {
		return farm.Unknown, true
	}
	truth, ok := Truth(text)
	if truth {
		return farm.Yes, ok
	}
	return farm.No, ok
}

// programs are the programs by their folded spellings. ARC alone is not among them: it
// may be either.
var programs = map[string]farm.Program{
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

var plans = map[string]farm.Plan{
	"yp": farm.YieldProtection, "yieldprotection": farm.YieldProtection, "rp": farm.RevenueProtection, "revenueprotection": farm.RevenueProtection,
	"rphpe": farm.HarvestPriceExclude, "revenueprotectionwithharvestpriceexclusion": farm.HarvestPriceExclude, "revenueprotectionharvestpriceexclusion": farm.HarvestPriceExclude,
}

// Program returns the program that a name stands for, in any case and with any blanks and dashes.
func Program(text string) (p farm.Program, ok bool) { p, ok = programs[Fold(text)]; return p, ok }

// Plan returns the plan of insurance that a word stands for.
func Plan(text string) (p farm.Plan, ok bool) { p, ok = plans[Fold(text)]; return p, ok }

// Contract returns what a word says of the yearly contract.
func Contract(text string) (c farm.Contract, ok bool) { c, ok = contracts[Fold(text)]; return c, ok }

// Lease returns the lease that a word stands for.
func Lease(text string) (l farm.Lease, ok bool) { l, ok = leases[Fold(text)]; return l, ok }
