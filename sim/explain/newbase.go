package explain

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// NewBaseFormat names the JSON of NewBases.
const NewBaseFormat = "fencerow/newbase/1"

// otherNoncovered is the planting of all other crops that are not covered.
const otherNoncovered = farm.OtherNoncovered

// NewBases is the new base acres of 2026 of every farm.
type NewBases struct {
	Format  string        `json:"format"` // fencerow/newbase/1
	Today   string        `json:"today"`
	Farms   []FarmNewBase `json:"farms"`
	Notes   []string      `json:"notes"` // that hold for every farm
	Caution []string      `json:"caution"`
}

// FarmNewBase is the new base of one farm, in acres; figures are nil where something is
// missing.
type FarmNewBase struct {
	Farm              string             `json:"farm"`
	Eligible          *bool              `json:"eligible"`
	Reason            string             `json:"reason"` // why not eligible, or what is missing
	AddedBeforeFactor *answer.Dollars    `json:"added_before_factor"`
	Factor            answer.Chance      `json:"factor"` // national, assumed where not announced
	Added             *answer.Dollars    `json:"added"`
	Commodities       []NewCommodityBase `json:"commodities"`
	Steps             []Step             `json:"steps"`
	Notes             []string           `json:"notes"`
}

// NewCommodityBase is a commodity's base with what is added to it, in acres.
type NewCommodityBase struct {
	Commodity    crop.Commodity  `json:"commodity"`
	Added        answer.Dollars  `json:"added"`
	BaseAcres    answer.Dollars  `json:"base_acres"`    // with what is added
	PaymentYield *answer.Dollars `json:"payment_yield"` // of the new base: the farm's existing one; nil where it has none
}

// NewBase returns the new base acres of every farm. factor is the national factor: 1
// while none is announced.
func NewBase(c answer.Question, factor float64) (NewBases, error) {
	answer := NewBases{Format: NewBaseFormat, Today: c.Today.Format(time.DateOnly), Farms: []FarmNewBase{}, Caution: answer.Caution()}
	terms, err := newBaseTermsOf()
	if err != nil {
		return answer, err
	}
	answer.Notes = terms.notes(factor)
	for _, f := range c.Operation.Farms {
		answer.Farms = append(answer.Farms, terms.farm(f, factor))
	}
	return answer, nil
}

// newBaseTerms are the rows of the law on new base.
type newBaseTerms struct {
	share, first, last, limit, reply, appeal law.Figure
}

func newBaseTermsOf() (t newBaseTerms, err error) {
	from := law.Rows("new_base_history_first")[0].First // the crop year from which new base counts
	for id, row := range map[string]*law.Figure{
		"new_base_noncovered_share": &t.share, "new_base_history_first": &t.first, "new_base_history_last": &t.last,
		"new_base_national_limit": &t.limit, "new_base_reply_days": &t.reply, "new_base_appeal_days": &t.appeal,
	} {
		if *row, err = law.Find(id, "", from); err != nil {
			return t, err
		}
	}
	return t, nil
}

func (t newBaseTerms) years() (first, last crop.CropYear) {
	return int(t.first.Number), int(t.last.Number)
}

// mean returns the five-year mean of acres planted and prevented.
func (t newBaseTerms) mean(f farm.Farm, commodity string) crop.Acres {
	first, last := t.years()
	sum := 0.0
	for y := first; y <= last; y++ {
		sum += history(f, commodity, y)
	}
	return sum / float64(last-first+1)
}

// history returns the acres of a crop planted and prevented in a crop year.
func history(f farm.Farm, commodity string, y crop.CropYear) crop.Acres {
	return f.PlantedAcres(commodity, y) + f.PreventedAcres(commodity, y)
}

// farm works out the new base of one farm.
func (t newBaseTerms) farm(f farm.Farm, factor float64) FarmNewBase {
	part := FarmNewBase{Farm: f.Key(), Factor: answer.Chance(factor), Commodities: []NewCommodityBase{}, Steps: []Step{}, Notes: t.farmNotes(f)}
	if missing := t.missing(f); missing != "" {
		part.Reason = "missing: " + missing
		return part
	}
	commodities := crop.Commodities()
	means := make([]crop.Acres, len(commodities))
	n := program.NewBase{
		NoncoveredMean: t.mean(f, position.FruitVegetables) + t.mean(f, otherNoncovered), TotalAcres: *f.TotalAcres,
		ExistingBase: f.BaseAcres(), NoncoveredShare: t.share.Number,
	}
	for i, c := range commodities {
		means[i] = t.mean(f, string(c))
		n.CoveredMean += means[i]
	}
	before := n.Added()
	added := program.Round(before*factor, 2)
	eligible := n.Eligible()
	part.Eligible, part.AddedBeforeFactor, part.Added = &eligible, answer.DollarsOf(before), answer.DollarsOf(added)
	part.Reason = t.reason(n)
	part.Steps = t.steps(f, n, before, added, factor)
	part.Notes = append(part.Notes, croplandNotes(f, added)...)
	for i, acres := range program.SharedBase(added, means) {
		base := baseOf(f, commodities[i])
		if base+acres == 0 {
			continue
		}
		part.Commodities = append(part.Commodities, NewCommodityBase{Commodity: commodities[i], Added: answer.Dollars(acres), BaseAcres: answer.Dollars(base + acres), PaymentYield: existingYield(f, commodities[i])})
	}
	return part
}

// reason says why nothing is added, "" where something is.
func (t newBaseTerms) reason(n program.NewBase) string {
	switch {
	case n.CoveredMean == 0:
		return "no covered crop was planted or prevented in the five years"
	case !n.Eligible():
		return "the existing base is as large as the plantings of the five years, or larger"
	case n.Added() == 0:
		return "the existing base already takes up the farm's total acres"
	}
	return ""
}

// missing names the figures that the file lacks of a farm.
func (t newBaseTerms) missing(f farm.Farm) string {
	var lacks []string
	if f.TotalAcres == nil {
		lacks = append(lacks, "total_acres of the farm")
	}
	first, last := t.years()
	if !slices.ContainsFunc(f.Planted, func(p farm.Planting) bool { return first <= p.CropYear && p.CropYear <= last }) {
		lacks = append(lacks, fmt.Sprintf("what was planted and prevented in crop years %d to %d (planted)", first, last))
	}
	return strings.Join(lacks, "; ")
}

// baseOf returns a farm's base acres of a commodity.
func baseOf(f farm.Farm, c crop.Commodity) crop.Acres {
	sum := 0.0
	for _, b := range f.BasesOf(c) {
		sum += b.BaseAcres
	}
	return sum
}

// existingYield returns the payment yield that a farm's new base of a commodity has:
// that of its base, weighted by acres where tracts differ; nil where it has none.
func existingYield(f farm.Farm, c crop.Commodity) *answer.Dollars {
	sum, acres := 0.0, 0.0
	for _, b := range f.BasesOf(c) {
		if b.PaymentYield == nil {
			return nil
		}
		sum, acres = sum+*b.PaymentYield*b.BaseAcres, acres+b.BaseAcres
	}
	if acres == 0 {
		return nil
	}
	return answer.DollarsOf(sum / acres)
}
