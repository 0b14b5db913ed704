package batch

import (
	"slices"
	"strings"

	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// incompleteFlag flags farms of which rows were refused.
const incompleteFlag = "farm_incomplete"

// Places of the 10th and 90th percentile in answer.Percentiles.
const tenth, ninetieth = answer.Tenth, answer.Ninetieth

// resultsOf returns the lines of one operation for the results, for programs.csv and
// for people.csv; names masks labels.
func resultsOf(client, operation string, c answer.Comparison, incomplete map[string]bool, names labels) (results []Result, further []furtherProgram, people []Person) {
	for _, y := range c.CropYears {
		lines := y.Standing.Lines
		for _, f := range y.Farms {
			for _, part := range f.Commodities {
				r := resultOf(f, part, lines[0])
				lines = lines[1:]
				if incomplete[f.Farm] { // no election is compared for a farm with missing rows
					r.Highest, r.Differs, r.Gain, r.MarginAfterLimit, r.Flags = "", false, nil, nil, strings.TrimSpace(r.Flags+" "+incompleteFlag)
				}
				r.Client, r.Operation, r.CropYear, r.Farm = names.client(client), names.operation(client, operation), int32(y.CropYear), names.farm(f.Farm)
				results, further = append(results, r), append(further, furtherOf(r, part.Programs)...)
			}
		}
		left := leftOut(y, incomplete, names)
		for _, p := range y.Operation.ByPerson {
			people = append(people, Person{
				Client: names.client(client), Operation: names.operation(client, operation), CropYear: y.CropYear, ID: names.person(p.ID), PersonPart: p, LeftOut: left,
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
	if d := part.Difference; d != nil {
		r.DifferenceMean, r.DifferenceError = (*float64)(&d.Mean), (*float64)(&d.StandardError)
		r.DifferenceLow, r.DifferenceHigh = (*float64)(&d.Lowest), (*float64)(&d.Highest)
		r.NeitherPays, r.ARCCOMore, r.PLCMore = (*float64)(part.ChanceNeitherPays), (*float64)(part.ChanceARCCOMore), (*float64)(part.ChancePLCMore)
	}
	return r
}
