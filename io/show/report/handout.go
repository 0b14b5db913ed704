package report

import (
	"fmt"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// OfHandout lays out county sheets for a meeting: a cover with a line for each sheet, then
// a sheet of paper for each county, commodity and practice. What concerns only those who
// made the sheets is not in it: OfHandoutNotes has that.
func OfHandout(h explain.Handout) Report {
	var r Report
	common := onAllSheets(h)
	r.cover(h, common)
	for _, s := range h.Sheets {
		r.sheet(fmt.Sprintf("Sheet %d of %d", s.Number, len(h.Sheets)))
		r.countySheet(h, s, common)
	}
	return r
}

// placeName names a county of a sheet with its State: "Story County, Iowa".
func placeName(s explain.CountySheet) string {
	if s.State == "" {
		return countyName(s)
	}
	return countyName(s) + ", " + s.State
}

func countyName(s explain.CountySheet) string {
	return wording.Capital(wording.County(answer.BasePart{County: s.County, CountyName: s.CountyName}))
}

// cropName names a crop of a sheet, with its practice where the county has two yields.
func cropName(s explain.CountySheet) string {
	if s.Practice == farm.AllPractices {
		return s.Commodity.Name()
	}
	return s.Commodity.Name() + " " + string(s.Practice)
}

// usualLow and usualHigh are the PLC yields between which a break-even one is shown, as
// parts of the benchmark yield; a judgement.
const usualLow, usualHigh = 0.4, 1.4

// noneInUse stands for a break-even PLC yield that no farm has.
const noneInUse = "none in use"

// breakEven writes the PLC yield at which both programs average the same, "none in use"
// where no farm has such a yield.
func breakEven(s explain.CountySheet) string {
	even := s.Part.EvenPaymentYield
	if even == nil || unusual(s) != answer.None {
		return noneInUse
	}
	return wording.Grouped(float64(*even), 0)
}

// benchmarkYield is the benchmark yield of a sheet, of which its PLC yield is a part.
func benchmarkYield(s explain.CountySheet) float64 {
	return float64(s.PaymentYield) / answer.AssumedPaymentYield
}

// unusual returns the program that averages more at every usual PLC yield; None where a
// usual one parts them, or PLC never pays.
func unusual(s explain.CountySheet) answer.Leader {
	even := s.Part.EvenPaymentYield
	if even == nil {
		return answer.None
	}
	switch part := float64(*even) / benchmarkYield(s); {
	case part > usualHigh:
		return answer.LeadsARCCO
	case part < usualLow:
		return answer.LeadsPLC
	}
	return answer.None
}

// evenSentence says for which PLC yields which program averages more.
func evenSentence(s explain.CountySheet) string {
	if s.Part.EvenPaymentYield == nil {
		return "PLC pays in none of these outcomes, whatever the PLC yield."
	}
	yield := func(y float64) string { return wording.YieldText(s.Commodity, answer.Dollars(y)) }
	if leader := unusual(s); leader != answer.None {
		low, _, _ := strings.Cut(yield(usualLow*benchmarkYield(s)), " ")
		return fmt.Sprintf("At any PLC yield from %s to %s an acre, %s pays more on average.", low, yield(usualHigh*benchmarkYield(s)), leader)
	}
	even := yield(float64(*s.Part.EvenPaymentYield))
	return fmt.Sprintf("The break-even PLC yield is %s an acre. Above it PLC pays more on average, below it ARC-CO.", even)
}
