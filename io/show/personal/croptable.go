package personal

import (
	"math"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// mostInSentences is the number of crops up to which each is told in sentences.
const mostInSentences = 6

// cropTable is what crops says as a table, where there are too many crops for sentences.
func (r *reader) cropTable() []report.Block {
	if len(r.lines) <= mostInSentences {
		return nil
	}
	t := report.Table{
		Title:   "Your crops: which pays more, of 100 outcomes; who is ahead on average, dollars a base acre before your share",
		Columns: []string{"farm and crop", "share", "ARC-CO", "PLC", "neither", "ahead", "last elected"},
	}
	for _, l := range r.lines {
		row := []string{wording.Farm(l.Farm, r.year.Farms) + " " + l.Commodity.Name(), percent(l.share), "unknown", "unknown", "unknown", "unknown", wording.LastElected(l.OnRecord)}
		if c := l.crop; c.Difference != nil && c.ChanceNeitherPays != nil {
			n := wording.Hundred(c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceNeitherPays, c.ChanceEqual)
			for i := range 3 {
				row[2+i] = program.Text(float64(n[i]), 0)
			}
			row[5] = ahead(l)
		}
		t.Rows = append(t.Rows, row)
	}
	return []report.Block{t}
}

// ahead writes the margin of a crop with its verdict: "ARC-CO $26", "toss-up".
func ahead(l line) string {
	switch l.Leader {
	case answer.Close, answer.LittleChance:
		return wording.Leads(l.Leader)
	}
	margin := answer.Dollars(math.Abs(float64(l.crop.Difference.Mean)))
	return string(l.crop.Leans) + " " + wording.Money(&margin)
}
