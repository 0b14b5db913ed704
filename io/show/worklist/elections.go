package worklist

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
)

// OfElections lists the elections of an answer by county office, the county that keeps the
// records of a farm: of each farm and crop the last election, the choice that people typed
// or a blank, who must agree, and who signed as far as the file says.
func OfElections(c answer.Comparison) report.Report {
	var out report.Report
	out.Add(report.Heading{Level: 1, Text: "Elections by county office"})
	for _, y := range c.CropYears {
		if len(c.CropYears) > 1 {
			out.Add(report.Heading{Level: 2, Text: fmt.Sprintf("Crop year %d", y.CropYear)})
		}
		if higherOf(y) {
			out.Add(report.Text(fmt.Sprintf("For %d FSA pays the higher of PLC and ARC-CO, whatever was elected.", y.CropYear)))
			continue
		}
		out.Add(report.Lead(counts(y)), report.Text(nothingFilledIn), report.Banner(wording.ToBePaid(y.Standing, y.CropYear)+" "+wording.LastDay(y.Standing, c.Today)))
		codes, offices := officesOf(y)
		for _, code := range codes {
			out.Add(electionTable(y, code, offices[code]))
		}
		out.Add(cashRent(y)...)
	}
	return withEnd(out, c)
}

// nothingFilledIn says whose the choices are.
const nothingFilledIn = "Choices and signatures are as people typed them. Where nothing was typed, the line is blank."

// higherOf reports whether no election changes what is paid for a year.
func higherOf(y answer.YearPart) bool {
	return slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool { return l.Highest == farm.HigherOf })
}

// counts says how many choices and signatures are noted.
func counts(y answer.YearPart) string {
	typed, signed, signers := 0, 0, map[string]bool{}
	for _, l := range y.Standing.Lines {
		if l.Typed != nil {
			typed++
		}
		for _, s := range l.Signers {
			if key := l.Farm + " " + s.ID; !signers[key] {
				signers[key] = true
				if s.Signed == farm.Yes {
					signed++
				}
			}
		}
	}
	return fmt.Sprintf("For %d, choices are typed for %d of %d farms and crops. %d of %d signatures are recorded here.", y.CropYear, typed, len(y.Standing.Lines), signed, len(signers))
}

// officesOf returns the codes of the county offices in the order of the file, and the lines
// of each.
func officesOf(y answer.YearPart) (codes []string, lines map[string][]answer.StandingLine) {
	lines = map[string][]answer.StandingLine{}
	for _, l := range y.Standing.Lines {
		code, _, _ := strings.Cut(l.Farm, "-")
		if lines[code] == nil {
			codes = append(codes, code)
		}
		lines[code] = append(lines[code], l)
	}
	return codes, lines
}

// electionTable lists the lines of one county office.
func electionTable(y answer.YearPart, code string, lines []answer.StandingLine) report.Grid {
	t := report.Grid{
		Title: []string{OfficeName(y, code) + " office, " + fmt.Sprint(y.CropYear)},
		Columns: []report.Column{{Head: "farm", Left: true}, {Head: "crop", Left: true, Wraps: true}, {Head: "last\nelected", Left: true}, {Head: "choice", Left: true},
			{Head: "who must agree", Left: true, Wraps: true}, {Head: "signed", Left: true, Wraps: true}},
	}
	for _, l := range lines {
		t.Rows = append(t.Rows, []string{wording.Farm(l.Farm, y.Farms), l.Commodity.Name(), wording.LastElected(l.OnRecord), wording.Choice(l.Typed), strings.Join(agree(l), ", "), signed(l)})
	}
	return t
}

// OfficeName names a county office by its county.
func OfficeName(y answer.YearPart, code string) string {
	for _, f := range y.Farms {
		if strings.HasPrefix(f.Farm, code+"-") {
			if name := wording.HomeCounty(f); !strings.HasSuffix(name, code) {
				return name + " (" + code + ")"
			}
		}
	}
	return "County " + code
}

// outside stands for people who are not in the file.
const outside = "people outside this file"

// agree are those who must agree on a line.
func agree(l answer.StandingLine) (names []string) {
	for _, s := range l.Signers {
		names = append(names, s.ID)
	}
	if l.Others > 0 {
		names = append(names, outside)
	}
	return names
}

// signed says of each signer of a line whether a signature is noted; without names where one
// person signs, and where none is noted.
func signed(l answer.StandingLine) string {
	var each []string
	alike := true
	for _, s := range l.Signers {
		each = append(each, s.ID+" "+wording.Signed(s))
		alike = alike && wording.Signed(s) == wording.NotRecorded
	}
	switch {
	case alike:
		return wording.NotRecorded
	case len(agree(l)) == 1:
		return wording.Signed(l.Signers[0])
	case l.Others > 0:
		each = append(each, outside+" "+wording.NotRecorded)
	}
	return strings.Join(each, "; ")
}

// cashRent says what a landowner for cash rent has no part in, of the farms that are known
// to be rented so, with its source; nothing for none.
func cashRent(y answer.YearPart) []report.Block {
	var farms []string
	for _, f := range y.Farms {
		if f.Lease == farm.CashLease {
			farms = append(farms, wording.Farm(f.Farm, y.Farms))
		}
	}
	if len(farms) == 0 {
		return nil
	}
	are := "is"
	if len(farms) > 1 {
		are = "are"
	}
	said := fmt.Sprintf("%s %s rented for cash. The landowner there has no share in the crop and no vote on the election. Decisions about base acres stay the owner's.", onFarms(farms), are)
	return []report.Block{report.Text(said), report.Small("Source: " + flag.ProducerSource + ".")}
}

// onFarms writes farms: "Farm 0417", "Farms 0417 and 1203".
func onFarms(numbers []string) string {
	if len(numbers) == 1 {
		return "Farm " + numbers[0]
	}
	return "Farms " + wording.Joined(numbers)
}

// withEnd ends a list with the caution and what its figures were made from.
func withEnd(out report.Report, c answer.Comparison) report.Report {
	out.Add(report.Small("Caution. " + strings.Join(c.Caution, " ") + fmt.Sprintf(" Run: today %s, prices of %s, seed %d, %d draws.", c.Today, c.Market.AsOf, c.Seed, c.Draws)))
	blocks := out.Blocks[:0]
	for _, b := range out.Blocks {
		if b != report.Text("") {
			blocks = append(blocks, b)
		}
	}
	out.Blocks = blocks
	return out
}
