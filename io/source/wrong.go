package source

// Wrong says that a question cannot be asked as it stands. Nothing was read by then, or
// what was read shows that it asks about something that is not there.
type Wrong struct {
	Field   string   // the part of the question that Reason goes on from: "mya", "county-yield", ...; "": Reason stands alone
	Reason  string   // `names the practice "wet"`
	Hint    string   // what to do; "": name one of Choices
	OneOf   string   // the field that Choices are for
	Choices []string // what it may be
}

// Error says which part is wrong, and why.
func (w Wrong) Error() string {
	if w.Field == "" {
		return w.Reason
	}
	return w.Field + " " + w.Reason
}
