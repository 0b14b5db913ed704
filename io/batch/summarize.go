package batch

import (
	"cmp"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"fencerow/io/batch/office"
	"fencerow/sim/answer"
)

// summarize writes summary.xlsx and counties.csv from the joined files of a run; s has its
// results.
func (f folder) summarize(a audit, s *office.Sums) error {
	if err := s.AddFiles(f.path); err != nil {
		return err
	}
	if err := f.whole(filepath.Join(f.path, "counties.csv"), func(w io.Writer) error { return s.WriteCounties(w, a.Least) }); err != nil {
		return err
	}
	run := office.Run{Rows: a.Counts.Rows, Answered: a.Counts.Answered, Refused: a.Counts.Refused, Operations: a.Counts.Operations, Farms: a.Counts.Farms, Masked: a.Masked, Market: a.Market, Source: a.Source, Today: a.Today, Seed: a.Seed}
	if a.EachAlone {
		run.Note = eachFarmAlone
	}
	return f.whole(filepath.Join(f.path, "summary.xlsx"), func(w io.Writer) error { return s.WriteSummary(w, run) })
}

// joinAndSum joins the parts and sums them up on the way.
func (f folder) joinAndSum(from origin, a audit) error {
	s := office.NewSums()
	if err := f.join(from, func(r Result) { s.Add(officeLine(r)) }); err != nil {
		return err
	}
	return f.summarize(a, s)
}

// officeLine is a result as the summary takes it.
func officeLine(r Result) office.Line {
	return office.Line{
		Client: r.Client, Operation: r.Operation, Farm: r.FarmNumber, County: cmp.Or(r.CountyName, r.CountyCode), Commodity: r.Commodity, CropYear: r.CropYear, Counties: r.Counties, BaseAcres: r.BaseAcres,
		Leader: r.Leader, Highest: r.Highest, OnRecord: r.OnRecord, Contract: r.Contract, Producers: r.Producers, NewElection: slices.Contains(strings.Fields(r.Flags), answer.NewElectionFlag),
		Difference: r.DifferenceMean, Gain: r.Gain, AfterLimit: r.AfterLimit,
	}
}
