package farmtable

// Explained is a column in words, for a template and for people.
type Explained struct {
	Name, Unit, Meaning, Example string
	Required                     bool
	Text                         bool // holds codes: a spreadsheet program must not take them for numbers
}

// Explanations returns the columns of farms in words, in the order of Row.Values.
func Explanations() []Explained {
	all := make([]Explained, farmColumnCount)
	for c, of := range columns[:farmColumnCount] {
		all[c] = Explained{of.name, of.unit, of.meaning, of.example, of.required, false}
	}
	for _, c := range textColumns {
		all[c].Text = true
	}
	return all
}

// TemplateRows returns the rows of an empty table to fill in, in the order of Columns.
func TemplateRows() [][]any {
	var rows [][]any
	for _, row := range templateRows {
		rows = append(rows, row[:])
	}
	return rows
}

// templateRows are invented: state code 99 is no state.
var templateRows = [][farmColumnCount]any{
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "corn", cropYearColumn: 2026, baseAcresColumn: 120.00, paymentYieldColumn: 150, electionColumn: "PLC", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5},
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "soybeans", cropYearColumn: 2026, baseAcresColumn: 80.00, paymentYieldColumn: 38, electionColumn: "ARC-CO", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5},
}

// textColumns hold codes and numbers that a spreadsheet program must not take
// for numbers: they would lose their leading zeros.
var textColumns = []column{farmColumn, stateColumn, countyColumn, tractColumn, physicalCountyColumn, mergeWithColumn, signedColumn}
