package explain

import (
	"fmt"
	"maps"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/position"
)

// Handout is the sheets for a meeting about some counties, all at one price date: one
// for each county, commodity and practice, on base of no particular farm. They stand by
// State and name of the county, then in the program's order of commodities.
type Handout struct {
	Format     string            `json:"format"`     // fencerow/handout/1
	Comparison answer.Comparison `json:"comparison"` // of farms that stand for a sheet each, in the order of Sheets
	Workings   []Workings        `json:"-"`
	Rows       []CountyRows      `json:"-"` // of the crop years, in order
	Replayed   Replayed          `json:"-"` // of the same farms
	Sheets     []CountySheet     `json:"sheets"`
	Missing    []string          `json:"missing"`  // LeftOut in words
	LeftOut    []LeftOut         `json:"left_out"` // counties and commodities without a sheet, and why

	// Gaps are the program years of which no source has FSA's yields of some county: what
	// ARC-CO paid then is not in Past.
	Gaps []crop.CropYear `json:"past_program_years_missing"`
}

// HandoutFormat names the JSON of a Handout.
const HandoutFormat = "fencerow/handout/1"

// handoutAcres is the base of a sheet. All printed figures are per base acre.
const handoutAcres = 100

// MakeHandout answers for every commodity that the sources have of each county, or only
// for those listed. A county that is named twice counts once. done is called with the
// number of counties that are ready.
func MakeHandout(c answer.Question, counties []string, only []crop.Commodity, done func(counties int)) (Handout, error) {
	h := Handout{Format: HandoutFormat, Sheets: []CountySheet{}, Missing: []string{}, LeftOut: []LeftOut{}, Gaps: []crop.CropYear{}}
	gaps := map[crop.CropYear]bool{}
	for i, code := range byStateAndName(c.Counties, counties) {
		farms, left := countyFarms(c, code, only)
		h.LeftOut = append(h.LeftOut, left...)
		if c.Operation.Farms = farms; len(farms) > 0 {
			if err := h.add(c, gaps); err != nil {
				return h, fmt.Errorf("county %s: %w", code, err)
			}
		}
		done(i + 1)
	}
	for i := range h.Sheets {
		h.Sheets[i].Number = i + 1
	}
	for _, l := range h.LeftOut {
		h.Missing = append(h.Missing, l.String())
	}
	h.Gaps = slices.AppendSeq(h.Gaps, maps.Keys(gaps))
	slices.Sort(h.Gaps)
	return h, nil
}

// add answers for the farms of the question, appends their sheets, and adds the program
// years that their past lacks to gaps.
func (h *Handout) add(c answer.Question, gaps map[crop.CropYear]bool) error {
	compared, err := compare.Answer(c)
	if err != nil {
		return err
	}
	replayed, err := Replay(c)
	if err != nil {
		return err
	}
	for i, y := range c.CropYears {
		workings, err := WorkingsOf(c, y)
		if err != nil {
			return err
		}
		rows, err := CountyRowsOf(c, y)
		if err != nil {
			return err
		}
		if len(h.Workings) <= i {
			h.Workings, h.Rows = append(h.Workings, Workings{CropYear: y}), append(h.Rows, CountyRows{})
		}
		h.Rows[i].Join(rows)
		h.Workings[i].Commodities = append(h.Workings[i].Commodities, workings.Commodities...)
	}
	for i, f := range c.Operation.Farms {
		s := countySheet(c, f, compared.CropYears[0].Farms[i], h.Workings[0].Commodities[len(h.Sheets)], replayed.Farms[i].Commodities[0])
		h.Sheets = append(h.Sheets, s)
		for _, y := range tablesMissing(c, position.CountyUnit{County: s.County, Commodity: s.Commodity, Practice: s.Practice, CropYear: c.CropYears[0]}) {
			gaps[y] = true
		}
	}
	h.join(compared, replayed)
	return nil
}

// join appends the farms of another county to the comparison and the replay.
func (h *Handout) join(c answer.Comparison, past Replayed) {
	if len(h.Comparison.CropYears) == 0 {
		h.Comparison, h.Replayed = c, past
		return
	}
	h.Replayed.Farms = append(h.Replayed.Farms, past.Farms...)
	for i := range c.CropYears {
		to := &h.Comparison.CropYears[i]
		to.Farms = append(to.Farms, c.CropYears[i].Farms...)
		to.Standing.Lines = append(to.Standing.Lines, c.CropYears[i].Standing.Lines...)
	}
	h.Comparison.Together = append(h.Comparison.Together, c.Together...)
}

// countyFarm is the farm that stands for a sheet.
func countyFarm(code string, commodity crop.Commodity, practice farm.Practice, paymentYield crop.Yield) farm.Farm {
	base := farm.Base{Commodity: commodity, BaseAcres: handoutAcres, PaymentYield: &paymentYield}
	number := string(commodity)
	if practice != farm.AllPractices {
		share := map[farm.Practice]crop.Share{farm.Irrigated: 1, farm.Nonirrigated: 0}[practice]
		base.IrrigatedShare, number = &share, number+"-"+string(practice)
	}
	return farm.Farm{Number: number, County: code, Bases: []farm.Base{base}}
}
