package answer

// Caution returns what every result ends with, in plain words.
func Caution() []string {
	return []string{
		"These are estimates, not a promise of payment and not advice on what to elect.",
		"Only the Farm Service Agency decides who is eligible and what is paid.",
		"The odds come from a model, and prices and yields can land outside it.",
		"Insurance and tax questions go to your agent and your tax adviser.",
	}
}
