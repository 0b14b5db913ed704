package batch

import (
	"strconv"
	"strings"

	"fencerow/sim/answer"
)

// DiffLine is one farm, crop and crop year that differs between two runs: a line of
// diff.csv. Amounts are USD per base acre as in results.csv; what is not known is null.
type DiffLine struct {
	Client    string           `json:"client"`
	Operation string           `json:"operation"`
	Farm      string           `json:"farm"` // key, "99001-0417"
	Commodity string           `json:"commodity"`
	CropYear  int              `json:"crop_year"`
	Flipped   bool             `json:"flipped"` // another lead
	Before    answer.MovedSide `json:"before"`
	After     answer.MovedSide `json:"after"`
	Moved     *answer.Dollars  `json:"usd_moved"` // ARC-CO less PLC on all base acres, after less before
	Cause     answer.Cause     `json:"cause"`
	Moves     []answer.Cause   `json:"moves_alone"` // kinds that by themselves move the line
	Flips     []answer.Cause   `json:"flips_alone"` // kinds that by themselves give the new lead
	Changed   string           `json:"changed"`     // what changed, from old to new
}

// sideOf reads a line of results; nil is none.
func sideOf(l resultLine) (s answer.MovedSide) {
	amount := func(column string) *answer.Dollars {
		x, err := strconv.ParseFloat(l.of(column), 64)
		if err != nil {
			return nil
		}
		return answer.DollarsOf(x)
	}
	return answer.MovedSide{Lead: l.of("leader"), Margin: amount("difference_mean"), PLC: amount("plc_mean"), ARCCO: amount("arc_co_mean"), BaseAcres: amount("base_acres")}
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
func kindsText(kinds []answer.Cause) string {
	var words []string
	for _, k := range kinds {
		words = append(words, string(k))
	}
	return strings.Join(words, " ")
}
