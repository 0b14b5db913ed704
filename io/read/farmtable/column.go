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
}

// Columns returns the names of all columns in the order of Row.Values.
func Columns() []string {
	names := make([]string, columnCount)
	for c, of := range columns {
		names[c] = of.name
	}
	return names
}
