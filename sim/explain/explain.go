package explain

import (
	"fmt"
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

// ExplanationFormat names the JSON of an Explanation.
const ExplanationFormat = "fencerow/explanation/1"

// Explanation is every step of each program on given figures.
type Explanation struct {
	Format    string              `json:"format"`
	CropYear  crop.CropYear       `json:"crop_year"`
	Farm      string              `json:"farm"`
	Commodity crop.Commodity      `json:"commodity"`
	Programs  ExplanationPrograms `json:"programs"`
	Insured   []farm.Program      `json:"insured_layers,omitempty"` // of area insurance on the crop, whose steps compare shows
	Flags     []answer.Flag       `json:"flags"`
	Caution   []string            `json:"caution"`
}

// ExplanationPrograms are PLC and ARC-CO, and ARC-IC of the whole farm where a covered
// planting is given.
type ExplanationPrograms = answer.ByProgram[ProgramSteps]

// ProgramSteps is one program from figures to payment. Where a figure is missing,
// Missing names it and Payment is nil.
type ProgramSteps struct {
	Steps              []Step          `json:"steps"`
	Rate               *answer.Price   `json:"rate"`                  // USD/unit for PLC, USD/acre for ARC-CO, before the payment-acre share
	PaymentPerBaseAcre *answer.Dollars `json:"payment_per_base_acre"` // after it
	Payment            *answer.Dollars `json:"payment"`               // USD, before share, limit and sequestration
	PaymentAfterLimit  *answer.Dollars `json:"payment_after_limit"`   // after them, all producers of the file
	People             []Step          `json:"people,omitempty"`      // from payment to what each person is paid, this base alone
	Missing            string          `json:"missing,omitempty"`
}

// Step is one line of the arithmetic.
type Step struct {
	Name   string        `json:"name"`
	Value  *answer.Price `json:"value"`
	Unit   string        `json:"unit"`
	Source string        `json:"source"`
	Status crop.Status   `json:"status"`

	Words string `json:"-"` // the name for people
}

// Given is the figures to explain payments at.
type Given struct {
	MYA         crop.Price                    // of the commodity explained
	Prices      map[crop.Commodity]crop.Price // of all crops of the farm, for ARC-IC
	CountyYield CountyYields
}

// CountyYields are actual county yields, units per acre.
type CountyYields map[CountyPractice]crop.Yield

// CountyPractice is a practice in a county. As a key of CountyYields an empty county
// stands for every county and an empty practice for every practice.
type CountyPractice struct {
	County   string
	Practice farm.Practice
}

// of returns the yield given for a county and practice, the most exact key first.
func (g CountyYields) of(u position.CountyUnit) (crop.Yield, bool) {
	for _, k := range []CountyPractice{{u.County, u.Practice}, {u.County, ""}, {"", u.Practice}, {"", ""}} {
		if y, ok := g[k]; ok {
			return y, true
		}
	}
	return 0, false
}

// CountyPractices returns the counties and practices whose yields ARC-CO of a farm's
// base depends on. A county without a yield in any source has an empty practice.
func CountyPractices(c answer.Question, f farm.Farm, commodity crop.Commodity, y crop.CropYear) (places []CountyPractice, err error) {
	bases, err := c.Sources().CommodityBases(f, y)
	if err != nil {
		return nil, err
	}
	add := func(p CountyPractice) {
		if !slices.Contains(places, p) {
			places = append(places, p)
		}
	}
	for _, base := range bases {
		if base.Commodity != commodity {
			continue
		}
		for _, b := range base.Bases {
			for _, u := range b.Practices {
				add(CountyPractice{b.County, u.Unit.Practice})
			}
			if len(b.Practices) == 0 {
				add(CountyPractice{b.County, ""})
			}
		}
	}
	return places, nil
}

// Explain returns every step of the payments of one farm, commodity and crop year at a
// given national price and county yields. An error means that the farm has no such base
// or that the law has no such year.
func Explain(c answer.Question, f farm.Farm, commodity crop.Commodity, y crop.CropYear, given Given) (Explanation, error) {
	explanation := Explanation{Format: ExplanationFormat, CropYear: y, Farm: f.Key(), Commodity: commodity, Caution: answer.Caution()}
	bases, err := c.Sources().CommodityBases(f, y)
	if err != nil {
		return explanation, err
	}
	for _, base := range bases {
		if base.Commodity != commodity {
			continue
		}
		payer, err := limits.NewRules(c.Operation, y)
		if err != nil {
			return explanation, err
		}
		plc, arc := explainPLC(base, payer, given), explainARCCO(base, payer, given)
		explanation.Programs = ExplanationPrograms{{Program: farm.PLC, Figures: &plc}, {Program: farm.ARCCO, Figures: &arc}}
		individual, err := explainARCIC(c, f, y, bases, payer, given)
		if err != nil {
			return explanation, err
		}
		if individual != nil {
			explanation.Programs = append(explanation.Programs, answer.OneProgram[ProgramSteps]{Program: farm.ARCIC, Figures: individual})
		}
		explanation.Insured = insuredLayers(f, commodity, y)
		explanation.Flags = flag.Raise(c, f, payer)
		return explanation, nil
	}
	return explanation, fmt.Errorf("farm %s has no %s base", f.Key(), commodity.Name())
}

// insuredLayers are the layers of area insurance on a crop of a farm, each once.
func insuredLayers(f farm.Farm, commodity crop.Commodity, y crop.CropYear) (layers []farm.Program) {
	for _, i := range f.InsuredIn(y) {
		for _, l := range i.Layers {
			if i.Commodity == commodity && !slices.Contains(layers, l.Program) {
				layers = append(layers, l.Program)
			}
		}
	}
	return layers
}

// stepList collects steps, in the units of commodity base h.
type stepList struct {
	h     *position.CommodityBase
	steps []Step
}

// add adds a step of package program. words go before or after its citation: where an
// entered figure is from, or how the paragraph is taken.
func (s *stepList) add(of program.Step, suffix string, value float64, decimals int, words string, status crop.Status) {
	unit := of.Unit
	if s.h != nil {
		unit = of.UnitFor(s.h.Commodity)
	}
	s.steps = append(s.steps, Step{Name: of.Name + suffix, Words: inWords(of, suffix), Value: &answer.Price{Value: value, Decimals: decimals}, Unit: unit, Source: sourceOf(of, words), Status: status})
}

// inWords is a step's title with which year, commodity, base or person it is of.
func inWords(of program.Step, suffix string) string {
	which := strings.TrimSuffix(strings.ReplaceAll(strings.TrimPrefix(suffix, "_"), "_", " "), " weighted") // the title says so
	switch {
	case which == "":
		return of.Title
	case strings.HasSuffix(of.Title, "crop year") && !strings.HasSuffix(of.Title, "the crop year"):
		year, more, further := strings.Cut(which, " ")
		if further {
			more = ": " + more
		}
		return of.Title + " " + year + more
	}
	return of.Title + ": " + which
}

// sourceOf joins a step's citation and more words, which come first if they end in a
// colon or semicolon.
func sourceOf(of program.Step, words string) string {
	if strings.HasSuffix(words, ": ") || strings.HasSuffix(words, "; ") {
		return words + of.Citation
	}
	return of.Citation + words
}

// exact adds a figure that the law does not round, such as shares and acres, with the
// decimals it needs: two to six, of large amounts two to four, so that the noise allowed
// by program.Round stays hidden.
func (s *stepList) exact(of program.Step, suffix string, value float64, words string, status crop.Status) {
	const fewest, large = 2, 100_000
	most := 6
	if value >= large {
		most = 4
	}
	decimals := fewest
	for decimals < most && program.Round(value, decimals) != program.Round(value, most) {
		decimals++
	}
	s.add(of, suffix, value, decimals, words, status)
}

// Where figures are from that have no row of their own.
const (
	sourceGiven = "as given"
	farmRecord  = "the farm record"
)

// row adds a figure of the law with the citation of its row.
func (s *stepList) row(of program.Step, row law.Figure, suffix string) {
	s.exact(of, suffix, row.Number, row.Citation(), row.Status)
}

// pastPrices adds the five national prices that target price and benchmark price are
// made of.
func (s *stepList) pastPrices(suffix string) {
	n := s.h.National
	for i, year := range n.Terms.BenchmarkYears() {
		if f := n.History[i]; f.Status != "" {
			s.add(program.StepPastPrice, fmt.Sprintf("_%d%s", year, suffix), f.Value, n.Terms.PriceDecimals, f.Source, f.Status)
		}
	}
}

// target adds the steps to the price that PLC pays up to, which is also the floor of the
// benchmark price.
func (s *stepList) target() {
	n := s.h.National
	terms := n.Terms
	reference := terms.Rows[program.StepReferencePrice.Name].Citation()
	s.add(program.StepReferencePrice, "", terms.ReferencePrice, terms.ReferenceDecimals(), reference, terms.Status("reference_price", "reference_price_step"))
	if n.Target.Status == "" {
		return
	}
	if !terms.HasEffective {
		s.add(program.StepTargetIsReference, "", n.Target.Value, n.TargetDecimals(), reference, n.Target.Status)
		return
	}
	s.pastPrices("")
	for _, of := range []program.Step{program.StepAverageShare, program.StepEffectiveLimit} {
		s.row(of, terms.Rows[of.Name], "")
	}
	s.add(program.StepEffectiveReferencePrice, "", n.Target.Value, n.TargetDecimals(), "", n.Target.Status)
}

// loanRate adds the loan rate.
func (s *stepList) loanRate(suffix string) {
	terms, id := s.h.National.Terms, program.StepLoanRate.Name
	s.add(program.StepLoanRate, suffix, terms.LoanRate, s.h.National.TargetDecimals(), terms.Rows[id].Citation(), terms.Status(id))
}

// acres adds the steps from base acres to the payment acres of one base. share and
// excessRow are the rows of the law for PLC and ARC-CO, or those for ARC-IC.
func (s *stepList) acres(b position.Base, paymentAcres crop.Acres, of program.Step, share law.Figure, excessRow, suffix string) {
	base := s.h
	s.add(program.StepBaseAcres, suffix, b.Record.BaseAcres, 2, "; "+farmRecord, crop.Agency)
	if base.Unpaid != "" {
		s.add(program.StepUnpaidAcres, suffix, 0, 2, base.Unpaid, crop.Computed)
		return
	}
	s.row(of, share, suffix)
	if excess := position.ExcessFruitVegetables(base.Farm, base.National.Terms.CropYear, excessRow); excess > 0 {
		s.add(program.StepFarmBaseAcres, suffix, base.Farm.BaseAcres(), 2, "; "+farmRecord, crop.Agency)
		s.exact(program.StepFruitVegetableExcess, suffix, excess, "; shared over the farm's base by acres", crop.Assumed)
	}
	s.exact(program.StepPaymentAcres, suffix, paymentAcres, "", crop.Computed)
}

// payable adds the payment acres of PLC and ARC-CO.
func (s *stepList) payable(b position.Base, suffix string) {
	of := program.StepPaymentAcreShare
	s.acres(b, b.PaymentAcres, of, s.h.National.Terms.Rows[of.Name], "fruit_vegetable_share", suffix)
}

// suffixOf returns what keeps the steps of several bases or practices apart:
// "_99001_irrigated".
func suffixOf(base *position.CommodityBase, b position.Base, practice farm.Practice) string {
	var words []string
	if len(base.Bases) > 1 {
		words = append(words, b.County)
		if b.Record.Tract != "" {
			words = append(words, b.Record.Tract)
		}
	}
	if practice != "" && practice != farm.AllPractices && len(b.Practices) > 1 {
		words = append(words, string(practice))
	}
	if len(words) == 0 {
		return ""
	}
	return "_" + strings.Join(words, "_")
}

// finish adds the payment and the steps to what people are paid. byBase is USD by base.
func finish(base *position.CommodityBase, payer limits.Rules, s *stepList, rate answer.Price, perAcre float64, byBase []crop.Money, of program.Step) ProgramSteps {
	sum := 0.0
	for _, paid := range byBase {
		sum += paid
	}
	s.add(of, "", sum, 2, "", crop.Computed)
	people, after := explainPeople(payer, basesPaid{base, byBase})
	return ProgramSteps{Steps: s.steps, Rate: &rate, PaymentPerBaseAcre: answer.DollarsOf(perAcre), Payment: answer.DollarsOf(sum), PaymentAfterLimit: answer.DollarsOf(after), People: people}
}
