package farmtable

import (
	"fencerow/io/read/countyname"
	"fencerow/program/farm"
)

// agencyNames are the counties' names of a table that were looked up among the
// agencies' spellings: each once, because a table repeats its names, and what comes
// near a wrong one takes long to find.
type agencyNames map[name]countyFound

// name is a county's name in a column, with the State of the row.
type name struct{ column, state, text string }

// countyFound is what a name means; fault says why it means none.
type countyFound struct {
	code  string
	fault *farm.Fault
}

func (a agencyNames) find(n name) countyFound {
	found, known := a[n]
	if !known {
		found.code, found.fault = countyname.FindIn(n.column, n.state, n.text)
		a[n] = found
	}
	return found
}
