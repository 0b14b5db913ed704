package countyname

import (
	"fmt"
	"strings"
	"sync"

	"fencerow/program/crop"
)

// stateDigits is how many digits of a county code are those of its State.
const stateDigits = 2

// inventedState marks counties that do not exist.
const inventedState = "99"

// State returns the two digits of a State from its name, its postal letters or its
// digits; "" where there is none. The islands and 99, the State of invented
// counties, have digits.
func State(text string) string {
	code := strings.TrimSuffix(strings.TrimSpace(text), ".0") // digits that were taken for a number
	if len(code) == 1 {
		code = fmt.Sprintf("%02s", code)
	}
	if IsState(code) {
		return code
	}
	return stateWords()[strings.Join(words(text), "")]
}

// IsState knows the digits of the States, of Puerto Rico and the islands, and
// those of invented counties.
func IsState(code string) bool {
	switch code {
	case inventedState, "60", "66", "69", "72", "78":
		return true
	}
	return crop.StateNames[code] != ""
}

// stateWords are the States' codes by folded name and postal letters.
var stateWords = sync.OnceValue(func() map[string]string {
	codes := map[string]string{}
	for code, name := range crop.StateNames {
		codes[strings.Join(words(name), "")] = code
	}
	for letters, code := range statesByLetters {
		codes[strings.ToLower(letters)] = code
	}
	return codes
})

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
