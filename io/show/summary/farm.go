package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfFarm lays out one farm of a comparison in full, crop year by crop year: what is said of
// each crop, the figures side by side, the whole farm under each combination, and the
// sources as numbered notes at the end. key is "99001-0417"; of a farm that is not in the
// comparison there is a title only.
func OfFarm(c answer.Comparison, key string) report.Report {
	var r report.Report
	var n noteList
	for i, y := range c.CropYears {
		at := slices.IndexFunc(y.Farms, func(f answer.FarmPart) bool { return f.Farm == key })
		if at < 0 {
			return report.Report{Blocks: []report.Block{report.Text("Farm " + key + " is not in this answer.")}}
		}
		f, of := y.Farms[at], onlyFarm(y, at)
		head := report.Lines{fmt.Sprintf("Farm %s, %s, %d. %s", wording.Farm(key, y.Farms), wording.HomeCounty(f), y.CropYear, prices(c.Market))}
		if i == 0 {
			head = append(head, oddsAsked(c)...)
		}
		for _, part := range f.Commodities {
			r.Add(append(head, cropLines(part, y, key)...))
			head = nil
		}
		r.Add(since(c, y.CropYear, key)...)
		r.Add(programGrids(f)...)
		r.Add(used(f, &n), combinations(f, y))
		last := append(append(stops(of), flagged(of, higherOf)...), farmIndividual(f)...)
		last = append(append(last, typedHere(of)...), wording.Sentences(farmOffice(c, of, i)...))
		last = append(append(last, nonEmpty(wording.Sentences(doubts(of)...))...), flagLines(f)...)
		if i == len(c.CropYears)-1 {
			last = append(append(last, n.lines()...), caution+" "+run(c))
		}
		r.Add(last)
	}
	return r
}

// typedHere has the choices that people typed for a farm, none where they typed none.
func typedHere(y answer.YearPart) report.Lines {
	var typed []string
	for _, l := range y.Standing.Lines {
		if l.Typed != nil {
			typed = append(typed, l.Commodity.Name()+" "+string(*l.Typed))
		}
	}
	if len(typed) == 0 {
		return nil
	}
	return report.Lines{fmt.Sprintf("Choice typed here for %d: %s.", y.CropYear, wording.Joined(typed))}
}

// onlyFarm is a crop year with one of its farms alone; the names of the others stay out.
func onlyFarm(y answer.YearPart, at int) answer.YearPart {
	key := y.Farms[at].Farm
	y.Farms = y.Farms[at : at+1]
	y.Standing.Lines = slices.DeleteFunc(slices.Clone(y.Standing.Lines), func(l answer.StandingLine) bool { return l.Farm != key })
	return y
}

// cropLines say of one crop how often and how far a program is ahead, what could change
// that.
func cropLines(c answer.CommodityPart, y answer.YearPart, key string) report.Lines {
	head := fmt.Sprintf("%s, %s base acres", wording.Capital(c.Commodity.Name()), wording.Plain(&c.BaseAcres))
	if c.PaymentYield != nil {
		head += fmt.Sprintf(", PLC yield %s", wording.Plain(c.PaymentYield))
	}
	said := report.Lines{fmt.Sprintf("%s, last elected %s: %s.", head, wording.LastElected(c.OnRecord), verdict(c))}
	return append(said, nonEmpty(wording.Sentences(wording.Odds(c), wording.Average(c, marginTotal(y, key, c)), wording.Range(c), afterLimits(c), assumedShare(c), wording.PriceLeads(c), breakEven(c)))...)
}

// verdict is the lead with its reason where there is none.
func verdict(c answer.CommodityPart) string {
	switch c.Leader {
	case answer.LeadsPLC, answer.LeadsARCCO:
		return "leans " + string(c.Leader)
	case answer.None:
		return "no lead, " + strings.TrimSuffix(c.LeaderReason, ".")
	}
	return wording.Leads(c.Leader) + ", " + strings.TrimSuffix(c.LeaderReason, ".")
}

// marginTotal is the margin of a line on all its base.
func marginTotal(y answer.YearPart, key string, c answer.CommodityPart) *answer.Dollars {
	for _, l := range y.Standing.Lines {
		if l.Farm == key && l.Commodity == c.Commodity {
			return l.MarginTotal
		}
	}
	return nil
}

// mostBreakEven is how many times the own PLC yield a break-even one may be to be told.
const mostBreakEven = 1.4

// breakEven says at which PLC yield both programs would average the same.
func breakEven(c answer.CommodityPart) string {
	even := c.EvenPaymentYield
	if even == nil || c.PaymentYield == nil || *even >= mostBreakEven*(*c.PaymentYield) {
		return ""
	}
	return fmt.Sprintf("With a PLC yield of %s both would average the same.", wording.Plain(even))
}

// assumedShare gives ARC-CO with no base irrigated and with all of it, where the file gives
// no irrigated share.
func assumedShare(c answer.CommodityPart) string {
	a := c.AssumedShare
	if a == nil || a.At0 == nil {
		return ""
	}
	said := fmt.Sprintf("ARC-CO averages %s if none of %s base acres is irrigated, as used here (%s)", wording.Money(a.At0), wording.Plain(&a.BaseAcres), a.Status)
	if a.At1 != nil {
		said += fmt.Sprintf(", and %s if all is", wording.Money(a.At1))
	}
	return said + "."
}

// farmIndividual says why ARC-IC may matter on the farm, or why it does not.
func farmIndividual(f answer.FarmPart) report.Lines {
	switch {
	case f.ARCIC == nil:
		return nil
	case !f.ARCIC.CanMatter:
		return report.Lines{"ARC-IC is not shown: " + f.ARCIC.Reason + "."}
	case f.ARCIC.Missing != "":
		return report.Lines{"ARC-IC may matter: " + f.ARCIC.Reason + ". It has no figures: " + f.ARCIC.Missing + "."}
	}
	return report.Lines{"ARC-IC may matter: " + f.ARCIC.Reason + ". It covers every crop on the farm, and all producers must agree. Not confirmed: ask the county office."}
}

// farmOffice says who decides, what must happen to be paid, and when the money can come;
// what holds for the first crop year only is not said of later ones.
func farmOffice(c answer.Comparison, of answer.YearPart, i int) (said report.Lines) {
	s := of.Standing
	if i == 0 || !s.NewElection {
		said = append(said, wording.Sentences(wording.ToBePaid(s, of.CropYear), wording.WithoutElection(s, of.CropYear)))
	}
	var who []string
	for _, l := range s.Lines {
		text := wording.Deciders(l)
		if len(l.Signers) == 1 && l.Others == 0 {
			text = wording.Capital(l.Signers[0].ID) + " decides."
		}
		if !slices.Contains(who, text) {
			who = append(who, text)
		}
	}
	day := ""
	if i == 0 {
		day = wording.LastDay(s, c.Today)
	}
	contract := ""
	if f := of.Farms[0]; f.Contract != farm.Missed { // else it is among what stops payment
		contract = wording.ContractState(f.Contract, of.CropYear)
	}
	var days []string
	for _, part := range of.Farms[0].Commodities {
		if text := wording.Payday(of.CropYear, part.PaymentNotBefore, part.TaxYear); !slices.Contains(days, text) {
			days = append(days, text)
		}
	}
	return append(said, wording.Sentences(day, strings.Join(who, " "), contract, strings.Join(days, " ")))
}

// flagLines are the flags of a farm that no other sentence tells, in short; of those about
// the same matter the first, with how many there are besides.
func flagLines(f answer.FarmPart) (said report.Lines) {
	texts := map[string][]string{}
	var codes []string
	for _, flag := range f.Flags {
		if !isOther(flag) {
			continue
		}
		text := "Check: " + twoSentences(flag.Message)
		if flag.Severity == answer.Info {
			text = "Good to know: " + wording.FirstSentences(flag.Message, 1)
		}
		if texts[flag.Code] == nil {
			codes = append(codes, flag.Code)
		}
		if !slices.Contains(texts[flag.Code], text) {
			texts[flag.Code] = append(texts[flag.Code], text)
		}
	}
	for _, code := range codes {
		text := texts[code][0]
		if more := len(texts[code]) - 1; more > 0 {
			text += fmt.Sprintf(" %d more: --full.", more)
		}
		said = append(said, text)
	}
	return said
}
