package sheet

import (
	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// saidAbove are flags that the banner or the answer of a sheet already tells.
var saidAbove = map[string]bool{answer.NewElectionFlag: true, "deadline_unknown": true, "higher_of_2025": true}

// doubtful are flags about figures that are not final.
var doubtful = map[string]bool{"county_stale": true, "unverified_figure": true, "market_stale": true, "price_carried": true, "yield_not_known": true, "yield_out_of_line": true}

// inShort says some doubts in fewer words than their flag.
var inShort = map[string]string{
	"county_stale":            "The county benchmark yields here are not FSA's own for this year. Compare them with FSA's table.",
	"yield_not_known":         "Harvest is usually over, but some county yields are not known here yet. USDA's or an elevator's figure makes the odds surer.",
	"yield_source_may_differ": "NASS and RMA lack some county yields here. FSA may then pay on a yield from another source.",
}

// grouped sorts flags for paper: what stops a payment or leaves a figure out, what to
// check, what is not certain, and what is good to know. All are the first sentences of
// their message, each said once: check prints them whole.
func grouped(flags []answer.Flag) (stops, check, doubts, know []string) {
	said := map[string]bool{}
	for _, flag := range flags {
		text := wording.FirstSentences(flag.OnPaper(), told)
		if short, has := inShort[flag.Code]; has {
			text = short
		}
		switch {
		case said[text], saidAbove[flag.Code]:
		case flag.Severity == answer.Error:
			stops = append(stops, flag.OnPaper())
		case doubtful[flag.Code]:
			doubts = append(doubts, text)
		case flag.Severity == answer.Warning:
			check = append(check, text)
		default:
			know = append(know, text)
		}
		said[text] = true
	}
	return stops, check, doubts, know
}

// told is how many sentences of a flag's message stand on a farm's sheet.
const told = 2

func points(texts []string) (list report.List) {
	for _, text := range texts {
		list = append(list, report.Point{Text: text})
	}
	return list
}
