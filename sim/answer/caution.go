package answer

// Caution returns what every result ends with, in plain words.
func Caution() []string {
	return []string{
		"These are estimates from published rules and stated assumptions, not a promise of payment.",
		"Only the Farm Service Agency determines eligibility and payment: check with the county office before signing.",
		"Insurance questions belong to a licensed agent, tax questions to a tax adviser.",
		"The odds are those of this model, not of the future.",
		"Farm records stay on this machine (7 U.S.C. 8791 protects them); no names are needed.",
	}
}
