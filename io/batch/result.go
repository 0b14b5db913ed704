package batch

import (
	"fmt"
	"strconv"
	"strings"

	"fencerow/program"
	"fencerow/sim/answer"
)

// Result is one farm, commodity and crop year of the results: the columns of
// results.csv and results.parquet in this order. Amounts are USD per base acre after
// the payment-acre share, before share, limit and sequestration; chances are shares.
// What is not known is null, and empty in CSV.
type Result struct {
	Client           string   `parquet:"client"`
	Operation        string   `parquet:"operation"`
	Farm             string   `parquet:"farm"` // key, "99001-0417"
	Commodity        string   `parquet:"commodity"`
	CropYear         int32    `parquet:"crop_year"`
	Counties         string   `parquet:"counties"` // in which the base lies, with blanks between
	BaseAcres        float64  `parquet:"base_acres"`
	PaymentYield     *float64 `parquet:"payment_yield,optional"`
	PLCMean          *float64 `parquet:"plc_mean,optional"`
	PLCPoor          *float64 `parquet:"plc_p10,optional"`
	PLCGood          *float64 `parquet:"plc_p90,optional"`
	ARCCOMean        *float64 `parquet:"arc_co_mean,optional"`
	ARCCOPoor        *float64 `parquet:"arc_co_p10,optional"`
	ARCCOGood        *float64 `parquet:"arc_co_p90,optional"`
	DifferenceMean   *float64 `parquet:"difference_mean,optional"` // ARC-CO less PLC
	DifferenceError  *float64 `parquet:"difference_standard_error,optional"`
	DifferenceLow    *float64 `parquet:"difference_lowest_in_band,optional"`
	DifferenceHigh   *float64 `parquet:"difference_highest_in_band,optional"`
	NeitherPays      *float64 `parquet:"chance_neither_pays,optional"`
	ARCCOMore        *float64 `parquet:"chance_arc_co_more,optional"`
	PLCMore          *float64 `parquet:"chance_plc_more,optional"`
	EvenPaymentYield *float64 `parquet:"even_payment_yield,optional"`
	Leader           string   `parquet:"leader"`
	Leans            string   `parquet:"leans"`
	Reason           string   `parquet:"leader_reason"`
	Highest          string   `parquet:"highest_mean"` // the program of the election with the highest average after limits over the operation
	OnRecord         string   `parquet:"election_on_record"`
	Differs          bool     `parquet:"differs_from_record"`
	Contract         string   `parquet:"contract"`
	Flags            string   `parquet:"flags"` // codes with blanks between
	// After share, limit and sequestration, of all producers together, every other line
	// following the choices: ARC-CO less PLC per base acre, where limits are reached in
	// more than 1 of 100 outcomes; and what the choice averages more than what is on
	// record, USD in total, never below zero.
	MarginAfterLimit *float64 `parquet:"margin_after_limit,optional"`
	Gain             *float64 `parquet:"gain_after_limit,optional"`
	// The county that keeps the farm's records, the parts of the farm's key, and who has a
	// share, as the table names them.
	CountyCode string `parquet:"county_code"`
	CountyName string `parquet:"county_name"` // "Alder County"; "" where no source names it
	State      string `parquet:"state"`       // its name; two digits where it has none
	FarmNumber string `parquet:"farm_number"`
	Producers  string `parquet:"producers"` // with "; " between
	// USD on all base acres of the line: the printed average per base acre times the acres,
	// before share, limit and sequestration; then what the choices average on it after them.
	PLCTotal        *float64 `parquet:"plc_mean_total,optional"`
	ARCCOTotal      *float64 `parquet:"arc_co_mean_total,optional"`
	DifferenceTotal *float64 `parquet:"difference_mean_total,optional"`
	AfterLimit      *float64 `parquet:"mean_after_limit,optional"` // see afterLimits
}

// resultColumns are the heads of results.csv.
var resultColumns = strings.Fields(`client operation farm commodity crop_year counties base_acres payment_yield plc_mean plc_p10 plc_p90 arc_co_mean arc_co_p10 arc_co_p90
	difference_mean difference_standard_error difference_lowest_in_band difference_highest_in_band chance_neither_pays chance_arc_co_more chance_plc_more
	even_payment_yield leader leans leader_reason highest_mean election_on_record differs_from_record contract flags margin_after_limit gain_after_limit
	county_code county_name state farm_number producers plc_mean_total arc_co_mean_total difference_mean_total mean_after_limit`)

// record returns the result as a line of CSV: money and yields to two decimals,
// chances to six.
func (r Result) record() []string {
	return []string{
		r.Client, r.Operation, r.Farm, r.Commodity, strconv.Itoa(int(r.CropYear)), r.Counties, number(&r.BaseAcres, money), number(r.PaymentYield, money),
		number(r.PLCMean, money), number(r.PLCPoor, money), number(r.PLCGood, money), number(r.ARCCOMean, money), number(r.ARCCOPoor, money), number(r.ARCCOGood, money),
		number(r.DifferenceMean, money), number(r.DifferenceError, money), number(r.DifferenceLow, money), number(r.DifferenceHigh, money),
		number(r.NeitherPays, chance), number(r.ARCCOMore, chance), number(r.PLCMore, chance), number(r.EvenPaymentYield, money),
		r.Leader, r.Leans, r.Reason, r.Highest, r.OnRecord, strconv.FormatBool(r.Differs), r.Contract, r.Flags,
		number(r.MarginAfterLimit, money), number(r.Gain, money), r.CountyCode, r.CountyName, r.State, r.FarmNumber, r.Producers,
		number(r.PLCTotal, money), number(r.ARCCOTotal, money), number(r.DifferenceTotal, money), number(r.AfterLimit, money),
	}
}

// Decimals of numbers in CSV.
const (
	money  = 2
	chance = 6
)

func number(x *float64, decimals int) string {
	if x == nil {
		return ""
	}
	return program.Text(*x, decimals)
}

// Person is what reaches one person of an operation in one crop year under the
// choices with the highest average: the columns of people.csv. USD after share and
// attribution; LeftOut names farms and commodities without figures.
type Person struct {
	Client, Operation string
	CropYear          int
	ID                string
	answer.PersonPart
	LeftOut string
}

// personColumns are the heads of people.csv.
var personColumns = strings.Fields("client operation crop_year person mean mean_after_limit p10_after_limit p25_after_limit p50_after_limit chance_of_limit payment_limit payment_not_before tax_year left_out operations mean_each_alone mean_across part_across chance_of_limit_across")

func (p Person) record() []string {
	dollars := func(d answer.Dollars) string { x := float64(d); return number(&x, money) }
	at := func(i int) string { return number(&p.Percentiles[i], money) }
	reached := float64(p.ChanceOfLimit)
	const tenth, quarter, middle = answer.Tenth, answer.Quarter, answer.Half
	all := answer.AcrossPart{Operations: 1, Alone: p.MeanAfterLimit, MeanAfterLimit: p.MeanAfterLimit, Part: p.MeanAfterLimit, ChanceOfLimit: p.ChanceOfLimit}
	if p.Across != nil {
		all = *p.Across
	}
	often := float64(all.ChanceOfLimit)
	return []string{p.Client, p.Operation, strconv.Itoa(p.CropYear), p.ID, dollars(p.Mean), dollars(p.MeanAfterLimit), at(tenth), at(quarter), at(middle),
		number(&reached, chance), dollars(p.Limit), p.PaymentNotBefore, fmt.Sprint(p.TaxYear), p.LeftOut,
		strconv.Itoa(all.Operations), dollars(all.Alone), dollars(all.MeanAfterLimit), dollars(all.Part), number(&often, chance)}
}

// refusedColumns are the heads of refused.csv.
var refusedColumns = []string{"row", "column", "value", "reason", "hint"}
