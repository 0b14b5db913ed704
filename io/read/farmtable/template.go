package farmtable

// Explained is a column in words, for a template and for people.
type Explained struct {
	Name, Unit, Meaning, Example string
	Required                     bool
	Text                         bool // holds codes: a spreadsheet program must not take them for numbers
}

// Explanations returns the columns of farms in words, in the order of Row.Values; insured:
// those of area insurance follow.
func Explanations(insured bool) []Explained {
	all := make([]Explained, templateColumns(insured))
	for c, of := range columns[:len(all)] {
		all[c] = Explained{of.name, of.unit, of.meaning, of.example, of.required, false}
	}
	for _, c := range textColumns {
		all[c].Text = true
	}
	return all
}

// templateColumns is how many columns a table to fill in has.
func templateColumns(insured bool) column {
	if insured {
		return columnCount
	}
	return farmColumnCount
}

// TemplateRows returns the rows of an empty table to fill in, in the order of Explanations.
func TemplateRows(insured bool) [][]any {
	var rows [][]any
	for _, row := range templateRows {
		rows = append(rows, row[:templateColumns(insured)])
	}
	return rows
}

// templateRows are invented: state code 99 is no state.
var templateRows = [][columnCount]any{
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "corn", cropYearColumn: 2026, baseAcresColumn: 120.00, paymentYieldColumn: 150, electionColumn: "PLC", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5,
		layersColumn: "SCO ECO", planColumn: "RP", levelColumn: 0.75, approvedYieldColumn: 180, insuredAcresColumn: 110, insuredShareColumn: 1, practiceColumn: "nonirrigated", projectedPriceColumn: 4.40, volatilityColumn: 0.19, expectedYieldColumn: 188, scoPremiumColumn: 6.20, ecoTriggerColumn: 0.95, ecoPremiumColumn: 9.80},
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "soybeans", cropYearColumn: 2026, baseAcresColumn: 80.00, paymentYieldColumn: 38, electionColumn: "ARC-CO", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5},
}

// textColumns hold codes and numbers that a spreadsheet program must not take
// for numbers: they would lose their leading zeros.
var textColumns = []column{farmColumn, stateColumn, countyColumn, tractColumn, physicalCountyColumn, mergeWithColumn, signedColumn}
