package batch

import (
	"slices"
	"strings"

	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/names"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Places of the 10th and 90th percentile in answer.Percentiles.
const tenth, ninetieth = answer.Tenth, answer.Ninetieth

// labels are those of names.
type labels = names.Labels

// resultsOf returns the lines of one operation for the results, for programs.csv and
// for people.csv; labels masks names.
func resultsOf(client, operation string, c answer.Comparison, incomplete map[string]bool, labels names.Labels) (results []Result, further []furtherProgram, people []Person) {
	for _, y := range c.CropYears {
		lines, paid := y.Standing.Lines, afterLimits(y)
		results, people = slices.Grow(results, len(lines)), slices.Grow(people, len(y.Operation.ByPerson))
		for _, f := range y.Farms {
			for _, part := range f.Commodities {
				r := resultOf(f, part, lines[0])
				r.AfterLimit, r.Producers = paid[0], labels.Signers(lines[0])
				lines, paid = lines[1:], paid[1:]
				if incomplete[f.Farm] { // no election is compared for a farm with missing rows
					r.Highest, r.Differs, r.Gain, r.MarginAfterLimit, r.AfterLimit, r.Flags = "", false, nil, nil, nil, strings.TrimSpace(r.Flags+" "+exceptions.Incomplete)
				}
				r.CountyCode, r.CountyName, r.State, r.FarmNumber = labels.Place(f)
				r.Client, r.Operation, r.CropYear, r.Farm = labels.Client(client), labels.Operation(client, operation), int32(y.CropYear), labels.Farm(f.Farm)
				results, further = append(results, r), append(further, furtherOf(r, part.Programs)...)
			}
		}
		left := leftOut(y, incomplete, labels)
		for _, p := range y.Operation.ByPerson {
			people = append(people, Person{
				Client: labels.Client(client), Operation: labels.Operation(client, operation), CropYear: y.CropYear, ID: labels.Person(p.ID), PersonPart: p, LeftOut: left,
			})
		}
	}
	return results, further, people
}

func resultOf(f answer.FarmPart, part answer.CommodityPart, line answer.StandingLine) Result {
	r := Result{
		Commodity: string(part.Commodity), BaseAcres: float64(part.BaseAcres), PaymentYield: (*float64)(part.PaymentYield), EvenPaymentYield: (*float64)(part.EvenPaymentYield),
		Leader: string(part.Leader), Leans: string(part.Leans), Reason: part.LeaderReason, Highest: string(line.Highest), Differs: line.Differs, Contract: string(f.Contract),
	}
	r.Gain = (*float64)(line.Gain)
	if part.AfterLimit != nil {
		r.MarginAfterLimit = (*float64)(&part.AfterLimit.Mean)
	}
	if part.OnRecord != nil {
		r.OnRecord = string(*part.OnRecord)
	}
	var counties, flags []string
	for _, b := range part.Bases {
		if !slices.Contains(counties, b.County) {
			counties = append(counties, b.County)
		}
	}
	for _, flag := range f.Flags {
		flags = append(flags, flag.Code)
	}
	r.Counties, r.Flags = strings.Join(counties, " "), strings.Join(flags, " ")
	if p := part.Programs.Of(farm.PLC); p != nil {
		r.PLCMean, r.PLCPoor, r.PLCGood = (*float64)(&p.Mean), &p.Percentiles[tenth], &p.Percentiles[ninetieth]
	}
	if p := part.Programs.Of(farm.ARCCO); p != nil {
		r.ARCCOMean, r.ARCCOPoor, r.ARCCOGood = (*float64)(&p.Mean), &p.Percentiles[tenth], &p.Percentiles[ninetieth]
	}
	r.PLCTotal, r.ARCCOTotal = onAll(r.PLCMean, r.BaseAcres), onAll(r.ARCCOMean, r.BaseAcres)
	if d := part.Difference; d != nil {
		r.DifferenceTotal = onAll((*float64)(&d.Mean), r.BaseAcres)
		r.DifferenceMean, r.DifferenceError = (*float64)(&d.Mean), (*float64)(&d.StandardError)
		r.DifferenceLow, r.DifferenceHigh = (*float64)(&d.Lowest), (*float64)(&d.Highest)
		r.NeitherPays, r.ARCCOMore, r.PLCMore = (*float64)(part.ChanceNeitherPays), (*float64)(part.ChanceARCCOMore), (*float64)(part.ChancePLCMore)
	}
	return r
}

// onAll is an average per base acre, as it is printed, on all base acres; nil for none.
func onAll(perAcre *float64, acres float64) *float64 {
	if perAcre == nil {
		return nil
	}
	total := program.Cent(*perAcre) * acres
	return &total
}
