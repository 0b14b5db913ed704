package farmtable

import (
	"regexp"
	"strings"
	"sync"

	"fencerow/io/read/spelling"
)

// otherHeadings are headings beside a column's own name that mean it, as people write
// them. Those of the farm record are FSA form FSA-156EZ's (Abbreviated 156 Farm Record,
// prints of about 2012 to 2025); the rest is a judgement. Case, blanks and signs do not
// count. None may be read another way that costs money: see unclearHeadings.
var otherHeadings = [columnCount][]string{
	clientColumn:         {"Client Name", "Client Number", "Client ID", "Customer", "Customer Name", "Customer Number"},
	operationColumn:      {"Operation Name"},
	farmColumn:           {"Farm Number", "Farm No", "Farm Nbr", "Farm Num", "Farm ID", "FSN", "Farm Serial Number", "FSA Farm", "FSA Farm Number", "FSA Farm No"},
	stateColumn:          {"State Name", "State Code", "State FIPS", "State Abbreviation", "Admin State", "ST"},
	countyColumn:         {"County Code", "County Name", "State & County Name", "State and County Name", "State & County", "State and County", "County and State", "Admin County", "Admin County Name", "Admin County Code", "Administrative County", "FIPS", "FIPS Code", "County FIPS", "FSA County", "FSA County Code"},
	tractColumn:          {"Tract Number", "Tract No", "Tract Nbr", "Tract Num", "Tract ID", "FSA Tract", "FSA Tract Number"},
	physicalCountyColumn: {"FSA Physical Location", "Physical Location", "Physical County Code", "Physical County Name"},
	commodityColumn:      {"Crop", "Crop Name", "Commodity Name", "Covered Commodity", "Crop Base Name", "Base Crop", "Base Commodity"},
	cropYearColumn:       {"Year", "Program Year", "Harvest Year"},
	baseAcresColumn:      {"Base", "Base Ac", "Base Acre", "Base Acreage", "Crop Base Acres", "Crop Base Acreage", "DCP Base Acres"},
	paymentYieldColumn:   {"PLC Yield", "PLC Payment Yield", "PLC Yld", "Program Yield"},
	irrigatedShareColumn: {"Historical Irrigated Share"},
	crpReductionColumn:   {"CCC-505", "CCC-505 Acres", "CCC-505 CRP Reduction", "CCC-505 CRP Reduction Acres", "CRP Reduction Acres"},
	electionColumn:       {"Election", "Program", "Program Election", "Elected Program", "Crop Election", "Crop Election Choice", "Election Choice", "Current Election", "ARC/PLC", "ARC/PLC Election"},
	contractColumn:       {"Contract Status"},
	leaseColumn:          {"Lease Type", "Kind of Lease"},
	staxColumn:           {"STAX"},
	producerColumn:       {"Producer Name", "Operator", "Operator Name"},
	shareColumn:          {"Crop Share", "Producer Share"},
	totalAcresColumn:     {"Farmland", "Farm Acres", "Total Farm Acres"},
	croplandColumn:       {"Cropland Acres"},
	unassignedColumn:     {"Unassigned Base", "Unassigned Base Ac", "Unassigned Generic Base", "Unassigned Generic Base Acres"},
	mergeWithColumn:      {"Merged With", "Merge With Farm"},

	planColumn:           {"Insurance Plan", "Plan of Insurance"},
	approvedYieldColumn:  {"APH Yield", "Approved APH Yield", "Insured Yield"},
	projectedPriceColumn: {"Insurance Projected Price"},
	harvestPriceColumn:   {"Insurance Harvest Price"},
	volatilityColumn:     {"Volatility Factor", "Price Volatility", "Price Volatility Factor"},
	expectedYieldColumn:  {"Expected County Yield"},
	finalYieldColumn:     {"Final County Yield"},
	practiceColumn:       {"Insurance Practice"},
	closesColumn:         {"Sales Closing Date", "Sales Closing"},
	scoPremiumColumn:     {"SCO Producer Premium"},
	ecoPremiumColumn:     {"ECO Producer Premium"},
	staxPremiumColumn:    {"STAX Producer Premium"},
}

// percentHeadings are the headings that mean a column and say that its numbers are
// percentages, beside any of them with "%", "percent", "percentage" or "pct" in it.
var percentHeadings = map[column][]string{
	irrigatedShareColumn: {"HIP", "Irrigated %", "Irrigated Percent", "Percent Irrigated", "Historical Irrigated Percentage"},
	shareColumn:          {"Share %", "Share Percent", "Percent Share", "Crop Share %", "Producer Share %"},
	levelColumn:          {"Coverage Level %"},
	insuredShareColumn:   {"Insured Share %"},
}

// unclearHeadings may mean a column or something else that would be answered in silence: acres
// planted, a yield of the farm's own, acres left idle. They are refused with the column
// they may mean.
var unclearHeadings = map[column][]string{
	baseAcresColumn:      {"Acres", "Acreage"},
	paymentYieldColumn:   {"Yield", "Yld", "Farm Yield", "FSA Yield"},
	irrigatedShareColumn: {"Irrigated"},
	unassignedColumn:     {"Unassigned"},
	idleColumn:           {"Idle"},
	mergeWithColumn:      {"Merge"},
	planColumn:           {"Plan"},
	levelColumn:          {"Level", "Coverage"},
	insuredAcresColumn:   {"Planted Acres", "Planted"},
	projectedPriceColumn: {"Price"},
}

// secondHeadings give way to another heading of their column, and are noted: a table may
// have a code and a name of one place, a producer and the operator.
var secondHeadings = []string{"State Name", "State Abbreviation", "County Name", "Operator", "Operator Name"}

// meaning is what a heading means.
type meaning struct {
	column  column
	percent bool // its numbers are percentages
	second  bool // it gives way to another heading of the column
}

// meanings are all headings that are understood, folded.
var meanings = sync.OnceValue(func() map[string]meaning {
	all := map[string]meaning{}
	for c := range columnCount {
		all[spelling.Fold(columns[c].name)] = meaning{column: c}
		for _, text := range otherHeadings[c] {
			all[spelling.Fold(text)] = meaning{column: c}
		}
	}
	for _, text := range secondHeadings {
		of := all[spelling.Fold(text)]
		of.second = true
		all[spelling.Fold(text)] = of
	}
	return all
})

// percentMeanings are the columns of percentHeadings, folded, without the word percent.
var percentMeanings = sync.OnceValue(func() map[string]column {
	all := map[string]column{}
	for c, headings := range percentHeadings {
		all[spelling.Fold(columns[c].name)] = c
		for _, text := range headings {
			bare, _ := withoutPercent(text)
			all[bare] = c
		}
	}
	return all
})

// hip is the heading of the farm record for a percentage without that word.
const hip = "hip"

// unitBehind is a unit in brackets behind a heading: "PLC Yield (bu/ac)".
var unitBehind = regexp.MustCompile(`(?i)\s*[(\[]\s*(acres?|ac\.?|bu\.?|bushels|lbs?\.?|pounds)(\s*(/|per)\s*(acre|ac\.?|a))?\s*[)\]]\s*$`)

// percentWords stand for a percent sign, the longest first.
var percentWords = []string{"percentage", "percent", "pct"}

// withoutPercent folds a heading and takes the word percent out of it.
func withoutPercent(heading string) (bare string, percent bool) {
	bare = spelling.Fold(heading)
	percent = strings.Contains(heading, "%")
	for _, word := range percentWords {
		if strings.Contains(bare, word) {
			bare, percent = strings.Replace(bare, word, "", 1), true
			break
		}
	}
	return bare, percent || bare == hip
}

// understood returns what a heading means, in any case, with blanks, underscores or none.
func understood(heading string) (of meaning, ok bool) {
	if bare, percent := withoutPercent(heading); percent {
		c, known := percentMeanings()[bare]
		return meaning{column: c, percent: true}, known
	}
	of, ok = meanings()[spelling.Fold(unitBehind.ReplaceAllString(heading, ""))]
	return of, ok
}

// columnNamed finds a column by a heading that is understood.
func columnNamed(heading string) (column, bool) {
	of, ok := understood(heading)
	return of.column, ok
}
