package crop

import "strings"

// StateNames by the agency's two-digit state code (the FIPS codes of INCITS
// 38, U.S. Census Bureau).
var StateNames = map[string]string{
	"01": "Alabama", "02": "Alaska", "04": "Arizona", "05": "Arkansas", "06": "California", "08": "Colorado",
	"09": "Connecticut", "10": "Delaware", "12": "Florida", "13": "Georgia", "15": "Hawaii", "16": "Idaho",
	"17": "Illinois", "18": "Indiana", "19": "Iowa", "20": "Kansas", "21": "Kentucky", "22": "Louisiana",
	"23": "Maine", "24": "Maryland", "25": "Massachusetts", "26": "Michigan", "27": "Minnesota",
	"28": "Mississippi", "29": "Missouri", "30": "Montana", "31": "Nebraska", "32": "Nevada",
	"33": "New Hampshire", "34": "New Jersey", "35": "New Mexico", "36": "New York", "37": "North Carolina",
	"38": "North Dakota", "39": "Ohio", "40": "Oklahoma", "41": "Oregon", "42": "Pennsylvania",
	"44": "Rhode Island", "45": "South Carolina", "46": "South Dakota", "47": "Tennessee", "48": "Texas",
	"49": "Utah", "50": "Vermont", "51": "Virginia", "53": "Washington", "54": "West Virginia",
	"55": "Wisconsin", "56": "Wyoming",
}

// StateCode returns the two digits of a State by its name in any case; "" for an
// unknown name.
func StateCode(name string) string {
	for code, known := range StateNames {
		if strings.EqualFold(known, name) {
			return code
		}
	}
	return ""
}
