package farmtable

// column is what a column means, wherever it stands in a table.
type column int

// The columns, in the order in which the program writes them.
const (
	clientColumn column = iota
	operationColumn
	farmColumn
	stateColumn
	countyColumn
	tractColumn
	physicalCountyColumn
	commodityColumn
	cropYearColumn
	baseAcresColumn
	paymentYieldColumn
	irrigatedShareColumn
	crpReductionColumn
	electionColumn
	contractColumn
	leaseColumn
	staxColumn
	producerColumn
	shareColumn
	totalAcresColumn
	croplandColumn
	unassignedColumn
	idleColumn
	mergeWithColumn
	choiceColumn
	signedColumn
	farmColumnCount // the columns of farms; those of area insurance follow
)

// The columns of area insurance, which are read where they are asked for (Profile.WithInsurance).
const (
	layersColumn column = iota + farmColumnCount
	planColumn
	levelColumn
	approvedYieldColumn
	insuredAcresColumn
	insuredShareColumn
	practiceColumn
	projectedPriceColumn
	harvestPriceColumn
	volatilityColumn
	expectedYieldColumn
	finalYieldColumn
	yieldRatioColumn
	closesColumn
	scoTriggerColumn
	scoCoverageColumn
	scoPremiumColumn
	scoTotalColumn
	ecoTriggerColumn
	ecoCoverageColumn
	ecoPremiumColumn
	ecoTotalColumn
	staxTriggerColumn
	staxRangeColumn
	staxFactorColumn
	staxPremiumColumn
	staxTotalColumn
	columnCount
)

// explained is a column in words, for the template and for people.
type explained struct {
	name, unit, meaning, example string
	required                     bool
}

var columns = [columnCount]explained{
	clientColumn:         {"client", "text", "whose farms these are; a number is enough", "client 12", false},
	operationColumn:      {"operation", "text", "rows of one name are one decision; left out: the client, else all rows together. Without client and producer columns, batch takes each farm by itself", "home farms", false},
	farmColumn:           {"farm", "text", "FSA farm number, kept as typed", "0417", true},
	stateColumn:          {"state", "name, postal letters or two digits", "state of the county; needed where county has three digits, or a name that several counties have", "99", false},
	countyColumn:         {"county", "code or name", "county that administers the farm", "99001", true},
	tractColumn:          {"tract", "text", "tract number, where base is given by tract", "1203", false},
	physicalCountyColumn: {"physical_county", "code or name", "county in which the land lies; left out: county", "99003", false},
	commodityColumn:      {"commodity", "key or any FSA spelling", "covered crop of the base", "corn", true},
	cropYearColumn:       {"crop_year", "year of harvest", "crop year asked about; left out: the command decides", "2026", false},
	baseAcresColumn:      {"base_acres", "acres", "base acres, the same in each row of one base", "120.00", true},
	paymentYieldColumn:   {"payment_yield", "bu or lb per acre", "PLC yield of the farm record, in the unit of the crop", "150", false},
	irrigatedShareColumn: {"irrigated_share", "0 to 1, or 35%", "historical irrigated percentage as a share", "0.35", false},
	crpReductionColumn:   {"crp_reduction", "acres", "base given up while land is in the Conservation Reserve, not part of base_acres", "0", false},
	electionColumn:       {"election_on_record", "PLC, ARC-CO or ARC-IC", "the last election for the crop", "PLC", false},
	contractColumn:       {"contract", "open, signed or missed", "yearly contract of the farm; missed: sign-up closed unsigned", "open", false},
	leaseColumn:          {"lease", "cash, share or flex", "how the land is rented", "cash", false},
	staxColumn:           {"stax_bought", "yes or no", "stacked income protection bought for cotton", "no", false},
	producerColumn:       {"producer", "text", "who has the share; with several, repeat the row", "operator", false},
	shareColumn:          {"share", "0 to 1, or 60%", "the producer's part of the base; left out: all, where there is one producer", "1", false},
	totalAcresColumn:     {"total_acres", "acres", "all land of the farm", "250", false},
	croplandColumn:       {"cropland", "acres", "cropland of the farm, at most total_acres", "231.5", false},
	unassignedColumn:     {"unassigned_base_acres", "acres", "base of the farm that belongs to no crop", "0", false},
	idleColumn:           {"idle_2009_2017", "yes or no", "all cropland in grass, idle or fallow through 2009-2017", "no", false},
	mergeWithColumn:      {"merge_with", "text", "farm number this one is to be joined with", "0418", false},
	choiceColumn:         {"choice", "PLC, ARC-CO or ARC-IC", "what was decided for the crop and crop year; blank: not decided here", "ARC-CO", false},
	signedColumn:         {"signed", "day as 2026-11-20, or yes, no or unknown", "whether and when the producer signed the farm's election of the crop year", "2026-11-20", false},

	layersColumn:         {"insured_layers", "SCO, ECO or STAX, with blanks or commas between", "layers of area insurance on the crop in the crop year; blank: none", "SCO ECO", false},
	planColumn:           {"insured_plan", "YP, RP or RP-HPE", "plan of the policy below the layers; STAX has RP or RP-HPE", "RP", false},
	levelColumn:          {"coverage_level", "0 to 1, or 75%", "coverage level of the policy below; may be blank for STAX", "0.75", false},
	approvedYieldColumn:  {"approved_yield", "bu or lb per acre", "approved yield of the policy below; may be blank for STAX", "180", false},
	insuredAcresColumn:   {"insured_acres", "acres", "planted and insured acres of the crop on the farm, which are not base", "110", false},
	insuredShareColumn:   {"insured_share", "0 to 1, or 60%", "insured part of the crop; left out: all", "1", false},
	practiceColumn:       {"insured_practice", "irrigated, nonirrigated or all", "whose county yield the area yield follows; left out: the county's, where it has one", "nonirrigated", false},
	projectedPriceColumn: {"projected_price", "USD per unit", "projected price of the insurance", "4.40", false},
	harvestPriceColumn:   {"harvest_price", "USD per unit", "harvest price of the insurance; left out: not published", "", false},
	volatilityColumn:     {"volatility", "number", "RMA's volatility factor; left out: that of the market file", "0.19", false},
	expectedYieldColumn:  {"expected_area_yield", "bu or lb per acre", "RMA's expected area yield", "188", false},
	finalYieldColumn:     {"final_area_yield", "bu or lb per acre", "RMA's final area yield; left out: not published", "", false},
	yieldRatioColumn:     {"area_yield_ratio", "number", "RMA's area yield over FSA's county yield; left out: 1, needed for seed cotton", "", false},
	closesColumn:         {"insurance_closes", "day as 2027-03-15", "last day to buy; left out: that of the law's rows, where they have one", "", false},
	scoTriggerColumn:     {"sco_trigger", "0 to 1, or 90%", "area loss trigger of SCO; left out: the only one of the crop year", "", false},
	scoCoverageColumn:    {"sco_coverage", "0 to 1, or 80%", "coverage percentage of SCO; left out: all", "", false},
	scoPremiumColumn:     {"sco_premium", "USD per insured acre", "what SCO costs you an acre after subsidy; left out: no figure net of it", "6.20", false},
	scoTotalColumn:       {"sco_total_premium", "USD per insured acre", "the same before subsidy; give one of the two", "", false},
	ecoTriggerColumn:     {"eco_trigger", "0.90 or 0.95", "area loss trigger of ECO; left out: the only one of the crop year", "0.95", false},
	ecoCoverageColumn:    {"eco_coverage", "0 to 1, or 80%", "coverage percentage of ECO; left out: all", "", false},
	ecoPremiumColumn:     {"eco_premium", "USD per insured acre", "what ECO costs you an acre after subsidy; left out: no figure net of it", "9.80", false},
	ecoTotalColumn:       {"eco_total_premium", "USD per insured acre", "the same before subsidy; give one of the two", "", false},
	staxTriggerColumn:    {"stax_trigger", "0.75 to 0.90", "area loss trigger of STAX; left out: the only one of the crop year", "", false},
	staxRangeColumn:      {"stax_range", "0.05 to 0.20", "coverage range of STAX", "", false},
	staxFactorColumn:     {"stax_protection_factor", "0.80 to 1.20", "protection factor of STAX; left out: 1", "", false},
	staxPremiumColumn:    {"stax_premium", "USD per insured acre", "what STAX costs you an acre after subsidy; left out: no figure net of it", "", false},
	staxTotalColumn:      {"stax_total_premium", "USD per insured acre", "the same before subsidy; give one of the two", "", false},
}

// Columns returns the names of the columns of farms in the order of Row.Values.
func Columns() []string { return namesOf(columns[:farmColumnCount]) }

// InsuranceColumns returns the names of the columns of area insurance.
func InsuranceColumns() []string { return namesOf(columns[farmColumnCount:]) }

func namesOf(some []explained) (names []string) {
	for _, of := range some {
		names = append(names, of.name)
	}
	return names
}
