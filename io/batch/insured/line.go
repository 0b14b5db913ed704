package insured

import (
	"cmp"
	"strconv"
	"strings"

	"fencerow/program"
)

// Line is one way of a farm and crop year, in this order: of an insured crop a program alone, a
// program with layers, or layers alone; without a commodity, the whole farm under a choice of
// programs, without and with its layers. Dollars are net of premiums and fees, to a full share,
// before the programs' share, limit and sequestration. What is not known is null, and empty in
// CSV.
type Line struct {
	Client    string `parquet:"client"`
	Operation string `parquet:"operation"`
	Farm      string `parquet:"farm"`      // key, "99001-0417"
	Commodity string `parquet:"commodity"` // "": the whole farm
	CropYear  int32  `parquet:"crop_year"`
	County    string `parquet:"county"`   // whose area yield insures the crop
	Practice  string `parquet:"practice"` // of that yield
	Plan      string `parquet:"plan"`

	Level        *float64 `parquet:"coverage_level,optional"`
	InsuredAcres float64  `parquet:"insured_acres"`
	Share        *float64 `parquet:"insured_share,optional"`
	BaseAcres    float64  `parquet:"base_acres"` // of the crop, or of the farm

	Choice      string `parquet:"choice"`  // of the whole farm, "corn=PLC soybeans=ARC-CO"
	Program     string `parquet:"program"` // "": layers alone, or the whole farm
	Layers      string `parquet:"layers"`  // with blanks between; "": none
	LastElected bool   `parquet:"last_elected"`

	Mean           *float64 `parquet:"mean,optional"` // USD in total; null, as the four after it, where a premium is not typed
	Poor           *float64 `parquet:"p10,optional"`
	Worst          *float64 `parquet:"mean_of_worst_tenth,optional"`
	PerInsuredAcre *float64 `parquet:"mean_per_insured_acre,optional"`
	PerBaseAcre    *float64 `parquet:"mean_per_base_acre,optional"`

	// How often a program and one layer pay in the same outcome.
	Both        *float64 `parquet:"chance_both_pay,optional"`
	OnlyProgram *float64 `parquet:"chance_only_program_pays,optional"`
	OnlyLayer   *float64 `parquet:"chance_only_layer_pays,optional"`
	Neither     *float64 `parquet:"chance_neither_pays,optional"`

	// Of one layer alone, USD per insured acre to a full share.
	Trigger         *float64 `parquet:"area_loss_trigger,optional"`
	LowerEnd        *float64 `parquet:"lower_end,optional"`
	Percentage      *float64 `parquet:"coverage_percentage,optional"`
	Protection      *float64 `parquet:"protection,optional"`
	PaysBelow       *float64 `parquet:"pays_below_yield,optional"`
	Average         *float64 `parquet:"layer_mean,optional"`
	ChanceOfPayment *float64 `parquet:"layer_chance_of_payment,optional"`
	ChanceOfMost    *float64 `parquet:"layer_chance_of_maximum,optional"`
	Premium         *float64 `parquet:"premium,optional"` // after subsidy; null: not typed
	Fee             *float64 `parquet:"fee,optional"`
	Net             *float64 `parquet:"layer_net_mean,optional"`
	NetAtShare      *float64 `parquet:"layer_net_total_at_share,optional"`

	PremiumMissing bool   `parquet:"premium_missing"`
	Missing        string `parquet:"missing"`      // why there are no figures; "": there are
	Apart          string `parquet:"not_together"` // why programs and layers of the crop have no line together
	Sales          string `parquet:"sales"`        // given, open or unknown
	LastDay        string `parquet:"sales_last_day"`
}

// Columns are the heads of insurance.csv.
var Columns = strings.Fields(`client operation farm commodity crop_year county practice plan coverage_level insured_acres insured_share base_acres
	choice program layers last_elected mean p10 mean_of_worst_tenth mean_per_insured_acre mean_per_base_acre
	chance_both_pay chance_only_program_pays chance_only_layer_pays chance_neither_pays
	area_loss_trigger lower_end coverage_percentage protection pays_below_yield layer_mean layer_chance_of_payment layer_chance_of_maximum premium fee layer_net_mean layer_net_total_at_share
	premium_missing missing not_together sales sales_last_day`)

// Decimals of numbers in CSV.
const (
	money  = 2
	chance = 6
)

// text writes a number, "" for none.
func text(x *float64, decimals int) string {
	if x == nil {
		return ""
	}
	return program.Text(*x, decimals)
}

// Record returns the line for CSV: money, acres and yields to two decimals, shares and chances
// to six.
func (l Line) Record() []string {
	return []string{
		l.Client, l.Operation, l.Farm, l.Commodity, strconv.Itoa(int(l.CropYear)), l.County, l.Practice, l.Plan, text(l.Level, chance), text(&l.InsuredAcres, money), text(l.Share, chance), text(&l.BaseAcres, money),
		l.Choice, l.Program, l.Layers, strconv.FormatBool(l.LastElected), text(l.Mean, money), text(l.Poor, money), text(l.Worst, money), text(l.PerInsuredAcre, money), text(l.PerBaseAcre, money),
		text(l.Both, chance), text(l.OnlyProgram, chance), text(l.OnlyLayer, chance), text(l.Neither, chance),
		text(l.Trigger, chance), text(l.LowerEnd, chance), text(l.Percentage, chance), text(l.Protection, money), text(l.PaysBelow, money), text(l.Average, money), text(l.ChanceOfPayment, chance), text(l.ChanceOfMost, chance),
		text(l.Premium, money), text(l.Fee, money), text(l.Net, money), text(l.NetAtShare, money),
		strconv.FormatBool(l.PremiumMissing), l.Missing, l.Apart, l.Sales, l.LastDay,
	}
}

// Before reports whether a line belongs to an operation before that of another.
func (l Line) Before(other Line) bool {
	return cmp.Or(cmp.Compare(l.Client, other.Client), cmp.Compare(l.Operation, other.Operation)) < 0
}
