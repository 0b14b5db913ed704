package personal

import (
	"fmt"
	"slices"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
)

// OfPerson is the sheet of one producer of the answer: what that person is paid, how the
// crops lean, who must agree and when the money comes. It is about the first crop year,
// with a sentence on each later one, and has no figure of other people.
func OfPerson(found answer.Comparison, id string) report.Report {
	c := &found
	r := readerOf(c, id, 0)
	out := report.Report{Blocks: []report.Block{report.Heading{Level: 1, Text: fmt.Sprintf("For %s: PLC and ARC-CO, crop year %d", called(id), r.year.CropYear)}}}
	if len(r.lines) == 0 && !r.paid() {
		return withEnd(out, c, report.Lead(noShare), report.Small("Source: "+flag.ProducerSource+"."))
	}
	out.Blocks = append(out.Blocks, report.Lead(r.answer(middle)))
	if sure := r.sure(); len(sure) > 0 {
		out.Blocks = append(out.Blocks, points(sure))
	}
	if after := r.after(); after != "" {
		out.Blocks = append(out.Blocks, report.Text(after))
	}
	out.Blocks = append(out.Blocks, report.Banner(r.lawAsks()))
	wide := r.cropTable()
	var left []report.Block
	if wide == nil {
		left = part("Your crops", r.crops())
	}
	decision, money := part("Your part in the decision", r.decision()), part("When the money comes", r.when(laterYears(c, id)))
	if len(left) == 0 {
		left, decision = decision, nil
	}
	out.Blocks = append(append(out.Blocks, report.Beside{Left: left, Right: slices.Concat(decision, money)}), wide...)
	return withEnd(out, c, r.notes()...)
}

// notes say in small type what is not certain and what the programs are.
func (r *reader) notes() (notes []report.Block) {
	if open := wording.Sentences(append(uncertain([]*reader{r}), r.limitUncertain())...); open != "" {
		notes = append(notes, report.Small("Not yet certain. "+open))
	}
	if len(r.lines) > 0 {
		notes = append(notes, report.Small(programsPay))
	}
	return notes
}

const noShare = "You have no share in these crops. A landlord on cash rent is not paid and has no part in the election. Base acres belong to the land and stay with it, whichever program is elected."

// part is a heading with points below, nothing for no point.
func part(heading string, said []string) []report.Block {
	all := points(said)
	if len(all) == 0 {
		return nil
	}
	return []report.Block{report.Heading{Level: 2, Text: heading}, all}
}
