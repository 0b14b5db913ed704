package farmtable

import (
	"fmt"
	"regexp"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// stateDigits is how many digits of a county code are those of its State.
const stateDigits = 2

// inventedState marks counties that do not exist.
const inventedState = "99"

var (
	oneOrTwoDigits  = regexp.MustCompile(`^[0-9]{1,2}$`)
	digitsAndLetter = regexp.MustCompile(`^([0-9]{1,5})([A-Za-z]?)$`)
	dividedCode     = regexp.MustCompile(`^([0-9]{1,2})[- ]([0-9]{3}[A-Za-z]?)$`)
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
	code = strings.TrimSuffix(text, ".0")
	if oneOrTwoDigits.MatchString(code) {
		code = fmt.Sprintf("%02s", code)
	} else if code = crop.StateCode(text); code == "" {
		code = statesByLetters[strings.ToUpper(strings.ReplaceAll(text, ".", ""))]
	}
	if !isState(code) {
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
	if !isState(code[:stateDigits]) || code[stateDigits:stateDigits+3] == "000" {
		r.refuse(c, fmt.Sprintf("%s is %q, which no county has", columns[c].name, text), "write state and county in five digits as the agency does")
		return ""
	}
	return code
}

func (r *rowReader) countyNamed(c column, state string) string {
	name := r.cells[c]
	switch {
	case state == "":
		r.refuse(c, fmt.Sprintf("%s is %q, without its state", columns[c].name, name), "add the column state, or write the county's five digits")
		return ""
	case r.Reader.county != nil:
		if code, ok := r.Reader.county(state, name); ok && farm.CheckCountyCode("", code) == nil {
			return code
		}
	}
	r.refuse(c, fmt.Sprintf("%s %q is not known in state %s", columns[c].name, name, state), "write its five digits; names are known of counties in your county tables and county book")
	return ""
}

// isState knows the digits of the States, of Puerto Rico and the islands, and
// those of invented counties.
func isState(code string) bool {
	switch code {
	case inventedState, "60", "66", "69", "72", "78":
		return true
	}
	return crop.StateNames[code] != ""
}

// statesByLetters are the postal letters of the States. Source: U.S. Postal
// Service, Publication 28, appendix B.
var statesByLetters = map[string]string{
	"AL": "01", "AK": "02", "AZ": "04", "AR": "05", "CA": "06", "CO": "08", "CT": "09", "DE": "10", "FL": "12", "GA": "13",
	"HI": "15", "ID": "16", "IL": "17", "IN": "18", "IA": "19", "KS": "20", "KY": "21", "LA": "22", "ME": "23", "MD": "24",
	"MA": "25", "MI": "26", "MN": "27", "MS": "28", "MO": "29", "MT": "30", "NE": "31", "NV": "32", "NH": "33", "NJ": "34",
	"NM": "35", "NY": "36", "NC": "37", "ND": "38", "OH": "39", "OK": "40", "OR": "41", "PA": "42", "RI": "44", "SC": "45",
	"SD": "46", "TN": "47", "TX": "48", "UT": "49", "VT": "50", "VA": "51", "WA": "53", "WV": "54", "WI": "55", "WY": "56",
	"PR": "72", "GU": "66", "VI": "78", "AS": "60", "MP": "69",
}
