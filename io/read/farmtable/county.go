package farmtable

import (
	"fmt"
	"regexp"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/program/farm"
)

// stateDigits is how many digits of a county code are those of its State.
const stateDigits = 2

var (
	digitsAndLetter = regexp.MustCompile(`^([0-9]{1,5})([A-Za-z]?)$`)
	dividedCode     = regexp.MustCompile(`^([0-9]{1,2}) ?[-/ ] ?([0-9]{3}[A-Za-z]?)$`)
)

// readCounties reads the county of the farm and that of the land.
func (r *rowReader) readCounties() {
	state, ok := r.state()
	if _, given := r.required(countyColumn); given && ok {
		r.row.County = r.countyCode(countyColumn, state)
		if r.row.County != "" && state != "" && r.row.County[:stateDigits] != state {
			r.refuse(countyColumn, fmt.Sprintf("county %s is not in state %s", r.row.County, state), "correct one of the two; the first two digits of a county code are its state")
			r.row.County = ""
		}
	}
	if r.cells[physicalCountyColumn] != "" && ok {
		r.row.PhysicalCounty = r.countyCode(physicalCountyColumn, state)
	}
	if r.row.PhysicalCounty == r.row.County {
		r.row.PhysicalCounty = ""
	}
}

// state reads the State as two digits; "" where it is not given. ok is false
// where it is refused.
func (r *rowReader) state() (code string, ok bool) {
	text := r.cells[stateColumn]
	if text == "" {
		return "", !r.spoiled[stateColumn]
	}
	code = countyname.State(text)
	if code == "" {
		r.refuse(stateColumn, fmt.Sprintf("state is %q", text), "write its name, its two postal letters or its two digits")
		return "", false
	}
	return code, true
}

// countyCode reads a county by its code, by the three digits that follow the
// State's, or by its name; "" where it is refused.
func (r *rowReader) countyCode(c column, state string) string {
	text := strings.TrimSuffix(r.cells[c], ".0") // a code that was taken for a number
	if divided := dividedCode.FindStringSubmatch(text); divided != nil {
		text = fmt.Sprintf("%02s", divided[1]) + divided[2]
	}
	parts := digitsAndLetter.FindStringSubmatch(text)
	if parts == nil && strings.ContainsAny(text, "0123456789") {
		r.check(c, farm.CheckCountyCode(columns[c].name, text))
		return ""
	}
	if parts == nil {
		return r.countyNamed(c, state)
	}
	digits, letter := parts[1], strings.ToUpper(parts[2])
	if len(digits) <= 3 {
		if state == "" {
			r.refuse(c, fmt.Sprintf("%s is %q, without its state", columns[c].name, text), "write five digits, or add the column state")
			return ""
		}
		digits = state + fmt.Sprintf("%03s", digits)
	}
	code := fmt.Sprintf("%05s", digits) + letter
	if !r.check(c, farm.CheckCountyCode(columns[c].name, code)) {
		return ""
	}
	if !countyname.IsState(code[:stateDigits]) || code[stateDigits:stateDigits+3] == "000" {
		r.refuse(c, fmt.Sprintf("%s is %q, which no county has", columns[c].name, text), "write State and county in five digits as FSA does")
		return ""
	}
	return code
}

// countyNamed reads a county by its name: that of a county in the tables and the
// book of the run goes before the agencies' spellings.
func (r *rowReader) countyNamed(c column, state string) string {
	text := r.cells[c]
	if state != "" && r.Reader.county != nil {
		if code, ok := r.Reader.county(state, text); ok && farm.CheckCountyCode("", code) == nil {
			return code
		}
	}
	found := r.named.find(name{columns[c].name, state, text})
	r.check(c, found.fault)
	return found.code
}
