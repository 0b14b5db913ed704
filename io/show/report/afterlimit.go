package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// limitedNote is the note under a table of margins where a limit is reached.
func limitedNote() string {
	return "Where a payment limit is reached in " + answer.LimitCounts() + ", the margin is " + wording.AfterLimit + ". In brackets: before them."
}

// limited reports whether any line has a margin after limit.
func limited(lines []answer.StandingLine) bool {
	return slices.ContainsFunc(lines, func(l answer.StandingLine) bool { return l.AfterLimit != nil })
}

// beforeLimit writes the margin before limit in brackets, for its place beside the one
// after limit; it names the program where that is another one.
func beforeLimit(l answer.StandingLine) string {
	before, after := ahead(float64(*l.Margin)), ahead(float64(l.AfterLimit.Mean))
	program, amount, found := strings.Cut(before, " ")
	if found && strings.HasPrefix(after, program+" ") {
		before = amount
	}
	return "(" + before + ")"
}

// afterLimitSentence says what a limit leaves of a commodity's margin.
func afterLimitSentence(c answer.CommodityPart) string {
	a := c.AfterLimit
	if a == nil {
		return ""
	}
	left := "both programs pay the same on average"
	if per := ahead(float64(a.Mean)); per != "even" {
		program, _, _ := strings.Cut(per, " ")
		total := answer.Dollars(math.Abs(float64(a.Total)))
		left = fmt.Sprintf("%s averages %s a base acre more, or %s in all", program, wording.Margin(a.Mean), wording.Whole(&total))
	}
	return fmt.Sprintf("A payment limit is reached in %s of 100 outcomes. %s, %s.", wording.InHundred(a.ChanceOfLimit), wording.Capital(wording.AfterLimit), left)
}
