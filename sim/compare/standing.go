package compare

import (
	"slices"
	"strings"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// standing lists what is elected on each farm and commodity beside what leads and who
// must sign. year must have its farms and its operation.
func (r *YearRun) standing(year answer.YearPart, farms []farmRun, after map[limits.FarmCommodity]limits.DifferenceAfterLimit) answer.Standing {
	out := answer.Standing{Lines: []answer.StandingLine{}}
	if rule, err := law.Find("election_rule", "", r.Year.CropYear); err == nil {
		out.NewElection, out.Source = rule.Text == flag.NewElectionRule, rule.Citation()
	}
	if later, err := law.Find("without_election", "", r.Year.CropYear+1); err == nil && out.NewElection {
		out.LaterCoverage, out.LaterCoverageStatus = strings.TrimPrefix(later.Text, "coverage_of_"), later.Status
	}
	if day, err := law.Find("last_signup_day", "", r.Year.CropYear); err == nil {
		out.LastDay, out.LastDayFrom = day.Text, day.Citation()
	}
	for i, f := range year.Farms {
		for k, part := range f.Commodities {
			at := limits.FarmCommodity{Farm: f.Farm, Commodity: part.Commodity}
			line := answer.StandingLine{
				Farm: f.Farm, Commodity: part.Commodity, BaseAcres: part.BaseAcres, Leader: part.Leader, Leans: part.Leans,
				Highest: year.Operation.HighestMean[f.Farm][part.Commodity], OnRecord: part.OnRecord, Contract: f.Contract,
			}
			if d := part.Difference; d != nil {
				mean := d.Mean
				line.Margin, line.MarginTotal = &mean, answer.DollarsOf(program.Cent(float64(mean))*float64(part.BaseAcres)) // from the printed margin, as a reader would
			}
			line.AfterLimit = part.AfterLimit
			if gain := after[at].Gain; gain != nil {
				line.Gain = answer.DollarsOf(program.Cent(*gain))
			}
			line.Differs = line.Highest != "" && (part.OnRecord == nil || *part.OnRecord != line.Highest)
			line.Signers, line.Others = r.signers(farms[i].bases[k])
			r.noteDecided(&line, farms[i].farm)
			out.Lines = append(out.Lines, line)
		}
	}
	out.Papers, out.Entities = r.papers(), r.entities()
	return out
}

// noteDecided fills in what people typed of a line: their choice, and who signed.
func (r *YearRun) noteDecided(line *answer.StandingLine, f farm.Farm) {
	if program, typed := f.Choice[r.Year.CropYear][line.Commodity]; typed {
		line.Typed = &program
	}
	for i, s := range line.Signers {
		signature := f.Signed[r.Year.CropYear][s.ID]
		line.Signers[i].Signed, line.Signers[i].On = signature.Signed, signature.On
	}
}

// papers returns what is noted of the papers of each producer, in the order of the file;
// none where nothing is noted of the year, and in a brief run.
func (r *YearRun) papers() (all []answer.PapersPart) {
	noted := false
	for _, p := range r.question.Operation.Producers {
		of := p.Papers[r.Year.CropYear]
		noted = noted || len(of) > 0
		all = append(all, answer.PapersPart{ID: p.ID, Kind: p.Kind, Noted: of})
	}
	if !noted || r.question.Brief {
		return nil
	}
	return all
}

// entities returns the producers with their owners, where the file names any; none in a brief
// run.
func (r *YearRun) entities() (all []answer.EntityPart) {
	for _, p := range r.question.Operation.Producers {
		if len(p.Members) == 0 || r.question.Brief {
			continue
		}
		one := answer.EntityPart{ID: p.ID, Kind: p.Kind}
		for _, m := range p.Members {
			one.Members = append(one.Members, answer.MemberPart{ID: m.ID, Share: answer.Chance(m.Share)})
		}
		all = append(all, one)
	}
	return all
}

// signers returns the producers of the file with a share in a commodity base, weighted
// by base acres, and the share of people outside the file.
func (r *YearRun) signers(base *position.CommodityBase) (all []answer.Signer, others answer.Chance) {
	rest := 1.0
	for _, p := range r.question.Operation.Producers {
		share := 0.0
		for _, part := range base.Bases {
			share += part.Shares[p.ID] * part.Record.BaseAcres / base.Acres
		}
		if share > 0 {
			all, rest = append(all, answer.Signer{ID: p.ID, Share: answer.Chance(share)}), rest-share
		}
	}
	if rest < crop.Noise {
		rest = 0
	}
	return slices.Clip(all), answer.Chance(rest)
}
