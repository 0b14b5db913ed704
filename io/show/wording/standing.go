package wording

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// ToBePaid says what a year's law asks of a farm before it is paid anything.
func ToBePaid(s answer.Standing, y crop.CropYear) string {
	if s.NewElection {
		return fmt.Sprintf("To be paid for %d, a farm needs a new election and a signed contract, even to keep its last choice.", y)
	}
	return fmt.Sprintf("For %d the last election holds until it is changed. The contract needs a signature every year; without it nothing is paid.", y)
}

// WithoutElection says what a missing election does, with its standing; "" where the year
// asks for no new one.
func WithoutElection(s answer.Standing, y crop.CropYear) string {
	if !s.NewElection || s.LaterCoverage == "" {
		return ""
	}
	said := fmt.Sprintf("Without an election nothing is paid for %d, and later years start from %s coverage until changed", y, s.LaterCoverage)
	if s.LaterCoverageStatus.Marked() {
		said += " (that rule is not confirmed)"
	}
	return said + "."
}

// LastDay says by when a farm elects and signs; today is the day of the answer,
// YYYY-MM-DD.
func LastDay(s answer.Standing, today string) string {
	if s.LastDay == "" || s.LastDay == "unknown" {
		return fmt.Sprintf("The sign-up deadline was not yet known on %s. Ask the county office.", Date(today))
	}
	if s.LastDay < today {
		return "The sign-up deadline was " + Date(s.LastDay) + "."
	}
	return "The sign-up deadline is " + Date(s.LastDay) + "."
}

// Deciders names those who decide a line's election.
func Deciders(l answer.StandingLine) string {
	var words []string
	for _, s := range l.Signers {
		words = append(words, fmt.Sprintf("%s (%s)", s.ID, Percent(s.Share)))
	}
	if l.Others > 0 {
		words = append(words, fmt.Sprintf("others who are not in this file (%s)", Percent(l.Others)))
	}
	if len(words) == 1 {
		return Capital(words[0]) + " decides."
	}
	return Capital(Joined(words)) + " share in the crop, so all must agree and sign."
}

// ContractState says whether a year's contract is signed.
func ContractState(c farm.Contract, y crop.CropYear) string {
	switch c {
	case farm.Signed:
		return fmt.Sprintf("The %d contract is signed.", y)
	case farm.Missed:
		return fmt.Sprintf("Sign-up for %d closed without a signature, so nothing is paid.", y)
	}
	return fmt.Sprintf("No signed %d contract is noted.", y)
}

// Payday says when crops of a year can be paid at the earliest, and in which tax year.
// notBefore is a day, YYYY-MM-DD.
func Payday(y crop.CropYear, notBefore string, taxYear int) string {
	return fmt.Sprintf("Payments for %d crops come %s or later. If paid that fall, they are %d income.", y, Date(notBefore), taxYear)
}
