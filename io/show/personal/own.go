package personal

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
)

// OfPerson is the sheet of one producer of the answer: what that person is paid, how the
// crops lean, who must agree and when the money comes. It is about the first crop year,
// with a sentence on each later one, and has no figure of other people.
func OfPerson(found answer.Comparison, id string) report.Report {
	c := &found
	r := readerOf(c, id, 0)
	out := report.Report{Blocks: []report.Block{report.Heading{Level: 1, Text: fmt.Sprintf("For %s: PLC and ARC-CO, crop year %d", called(id), r.year.CropYear)}}}
	if len(r.lines) == 0 && !r.paid() {
		return withEnd(out, c, report.Lead(noShare))
	}
	out.Blocks = append(out.Blocks, report.Lead(r.answer()))
	if after := r.after(); after != "" {
		out.Blocks = append(out.Blocks, report.Text(after))
	}
	out.Blocks = append(out.Blocks, report.Banner(r.lawAsks()))
	left, wide := part("How sure is that?", r.sure()), r.cropTable()
	if wide == nil {
		left = append(left, part("Your crops", r.crops())...)
	}
	right := slices.Concat(part("Your part in the decision", r.decision()), part("When the money comes", r.when(laterYears(c, id))), part("Not yet certain", uncertain([]*reader{r})))
	out.Blocks = append(append(out.Blocks, report.Beside{Left: left, Right: right}), wide...)
	return withEnd(out, c)
}

const noShare = "You have no share in these crops. A landlord on cash rent is not paid and has no part in the election. Base acres belong to the land and stay with it, whichever program is elected."

// part is a heading with points below, nothing for no point.
func part(heading string, said []string) []report.Block {
	var points report.List
	for _, text := range said {
		if strings.TrimSpace(text) != "" {
			points = append(points, report.Point{Text: text})
		}
	}
	if len(points) == 0 {
		return nil
	}
	return []report.Block{report.Heading{Level: 2, Text: heading}, points}
}
