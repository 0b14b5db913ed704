package answer

import (
	"strings"
	"time"
)

// SeveralOperationsFlag is the code of the flag about a person with a share in several
// operations.
const SeveralOperationsFlag = "person_in_several_operations"

// Day writes a day in a sentence: November 10, 2026.
func Day(day time.Time) string { return day.Format("January 2, 2006") }

// OffersFile comes before a market file that the message of a flag offers.
const OffersFile = " To use your own prices, save and change this market file: "

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

// NewElectionFlag is the code of the flag of a year in which every farm needs a new election.
const NewElectionFlag = "new_election_needed"
