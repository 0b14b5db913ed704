package answer

import (
	"strings"
)

// SeveralOperationsFlag is the code of the flag about a person with a share in several
// operations.
const SeveralOperationsFlag = "person_in_several_operations"

// OffersFile comes before a market file that the message of a flag offers.
const OffersFile = " For prices of your own, save and change this market file: "

// OnPaper returns the message without the file that it offers, which nobody copies from
// paper.
func (f Flag) OnPaper() string {
	message, _, _ := strings.Cut(f.Message, OffersFile)
	return message
}

// Flag is a warning that belongs to the answer.
type Flag struct {
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Message  string   `json:"message"`
	Source   string   `json:"source"`
}

// Severity of a flag.
type Severity string

// The severities. Error: a figure is missing, or a payment is 0, because of it.
const (
	Info    Severity = "info"
	Warning Severity = "warning"
	Error   Severity = "error"
)

// NewElectionFlag is the code of the flag of a year in which every farm must elect anew.
const NewElectionFlag = "new_election_needed"
