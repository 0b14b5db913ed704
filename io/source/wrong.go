package source

// Wrong is the error of a question that cannot be asked as it stands: an argument is
// malformed, or names something that is not there.
type Wrong struct {
	Field   string   // the argument, with which the sentence of Reason begins: "mya", "county-yield", ...; "": Reason stands alone
	Reason  string   // `names the practice "wet"`
	Hint    string   // what to do; "": name one of Choices
	OneOf   string   // the argument that takes one of Choices
	Choices []string // valid values
}

// Error says which part is wrong, and why.
func (w Wrong) Error() string {
	if w.Field == "" {
		return w.Reason
	}
	return w.Field + " " + w.Reason
}
