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

// countyOf is a county's name in a State of two digits.
type countyOf struct{ state, name string }

// codeDigits is how many digits a county code has.
const codeDigits = 5

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
	if known, has := r.states[text]; has {
		return known, true
	}
	if code = countyname.State(text); code != "" {
		keep(&r.states, strings.Clone(text), code)
	}
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
	if isCode(text) {                            // most values
		return r.realCode(c, text, text)
	}
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
	return r.realCode(c, code, text)
}

// isCode reports whether a text is written as codes are: five digits, with a capital letter
// perhaps.
func isCode(text string) bool {
	if len(text) == codeDigits+1 && text[codeDigits] >= 'A' && text[codeDigits] <= 'Z' {
		text = text[:codeDigits]
	}
	return len(text) == codeDigits && isDigits(text)
}

// realCode returns a code that is written as codes are; "" where it is refused, because no
// county can have it. text is what was typed.
func (r *rowReader) realCode(c column, code, text string) string {
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
		of := countyOf{state, text}
		if code, known := r.counties[of]; known {
			return code
		}
		if code, ok := r.Reader.county(state, text); ok && farm.CheckCountyCode("", code) == nil {
			keep(&r.counties, countyOf{state, strings.Clone(text)}, code)
			return code
		}
	}
	found := r.named.find(name{columns[c].name, state, text})
	r.check(c, found.fault)
	return found.code
}
