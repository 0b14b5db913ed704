package book

// stateCodes are the two digits of each State, for tables that have names only.
// Source: Federal Information Processing Standard 5-2, State codes.
var stateCodes = map[string]string{
	"ALABAMA": "01", "ALASKA": "02", "ARIZONA": "04", "ARKANSAS": "05", "CALIFORNIA": "06",
	"COLORADO": "08", "CONNECTICUT": "09", "DELAWARE": "10", "FLORIDA": "12", "GEORGIA": "13",
	"HAWAII": "15", "IDAHO": "16", "ILLINOIS": "17", "INDIANA": "18", "IOWA": "19",
	"KANSAS": "20", "KENTUCKY": "21", "LOUISIANA": "22", "MAINE": "23", "MARYLAND": "24",
	"MASSACHUSETTS": "25", "MICHIGAN": "26", "MINNESOTA": "27", "MISSISSIPPI": "28", "MISSOURI": "29",
	"MONTANA": "30", "NEBRASKA": "31", "NEVADA": "32", "NEW HAMPSHIRE": "33", "NEW JERSEY": "34",
	"NEW MEXICO": "35", "NEW YORK": "36", "NORTH CAROLINA": "37", "NORTH DAKOTA": "38", "OHIO": "39",
	"OKLAHOMA": "40", "OREGON": "41", "PENNSYLVANIA": "42", "RHODE ISLAND": "44", "SOUTH CAROLINA": "45",
	"SOUTH DAKOTA": "46", "TENNESSEE": "47", "TEXAS": "48", "UTAH": "49", "VERMONT": "50",
	"VIRGINIA": "51", "WASHINGTON": "53", "WEST VIRGINIA": "54", "WISCONSIN": "55", "WYOMING": "56",
}
