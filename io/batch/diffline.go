package batch

import (
	"strconv"
	"strings"

	"fencerow/sim/answer"
)

// DiffLine is one farm, crop and crop year that differs between two runs: a line of
// diff.csv. Amounts are USD per base acre as in results.csv; what is not known is null.
type DiffLine struct {
	Client    string          `json:"client"`
	Operation string          `json:"operation"`
	Farm      string          `json:"farm"` // key, "99001-0417"
	Commodity string          `json:"commodity"`
	CropYear  int             `json:"crop_year"`
	Flipped   bool            `json:"flipped"` // another lead
	Before    DiffSide        `json:"before"`
	After     DiffSide        `json:"after"`
	Moved     *answer.Dollars `json:"usd_moved"` // ARC-CO less PLC on all base acres, after less before
	Cause     Kind            `json:"cause"`
	Moves     []Kind          `json:"moves_alone"` // kinds that by themselves move the line
	Flips     []Kind          `json:"flips_alone"` // kinds that by themselves give the new lead
	Changed   string          `json:"changed"`     // what changed, from old to new
}

// DiffSide is a line in one of two runs.
type DiffSide struct {
	Lead      string          `json:"leader"` // "": the run has no such line
	Margin    *answer.Dollars `json:"difference_mean"`
	PLC       *answer.Dollars `json:"plc_mean"`
	ARCCO     *answer.Dollars `json:"arc_co_mean"`
	BaseAcres *answer.Dollars `json:"base_acres"`
}

// sideOf reads a line of results; nil is none.
func sideOf(l resultLine) (s DiffSide) {
	amount := func(column string) *answer.Dollars {
		x, err := strconv.ParseFloat(l.of(column), 64)
		if err != nil {
			return nil
		}
		return answer.DollarsOf(x)
	}
	return DiffSide{l.of("leader"), amount("difference_mean"), amount("plc_mean"), amount("arc_co_mean"), amount("base_acres")}
}

// total is the margin on all base acres, USD; nil where it is not known.
func (s DiffSide) total() *float64 {
	if s.Margin == nil || s.BaseAcres == nil {
		return nil
	}
	all := float64(*s.Margin) * float64(*s.BaseAcres)
	return &all
}

// diffColumns are the heads of diff.csv.
var diffColumns = strings.Fields(`client operation farm commodity crop_year flipped leader_before leader_after difference_before difference_after
	plc_mean_before plc_mean_after arc_co_mean_before arc_co_mean_after base_acres_before base_acres_after usd_moved cause moves_alone flips_alone changed`)

func (d DiffLine) record() []string {
	dollars := func(x *answer.Dollars) string { return number((*float64)(x), money) }
	return []string{d.Client, d.Operation, d.Farm, d.Commodity, strconv.Itoa(d.CropYear), strconv.FormatBool(d.Flipped), d.Before.Lead, d.After.Lead, dollars(d.Before.Margin), dollars(d.After.Margin),
		dollars(d.Before.PLC), dollars(d.After.PLC), dollars(d.Before.ARCCO), dollars(d.After.ARCCO), dollars(d.Before.BaseAcres), dollars(d.After.BaseAcres),
		dollars(d.Moved), string(d.Cause), kindsText(d.Moves), kindsText(d.Flips), d.Changed}
}

// kindsText writes kinds with blanks between.
func kindsText(kinds []Kind) string {
	var words []string
	for _, k := range kinds {
		words = append(words, string(k))
	}
	return strings.Join(words, " ")
}
