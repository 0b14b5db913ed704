package answer

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// payer holds the rules by which one crop year's payments reach people.
type payer struct {
	producers     []farm.Producer
	places        []int // of each producer among the recipients
	rule          program.LimitRule
	attribution   program.Attribution // in dollars before sequestration
	tenAcres      tenAcreRule
	cropYear      crop.CropYear
	limit         farm.Figure  // USD, of a person
	sequestration farm.Figure  // a share
	order         law.Figure   // of sequestration and limit
	rows          []law.Figure // those used, where the user gave no figure of his own
}

// newPayer reads the limit and the sequestration of the crop year, the user's own
// figures first.
func newPayer(o farm.Operation, y crop.CropYear) (payer, error) {
	p := payer{producers: o.Producers, cropYear: y}
	var err error
	if p.limit, err = p.setting("payment_limit", o.Settings.PaymentLimit); err != nil {
		return p, err
	}
	if p.sequestration, err = p.setting("sequestration", o.Settings.Sequestration); err != nil {
		return p, err
	}
	if p.order, err = law.Find("order_of_reductions", "", y); err != nil {
		return p, err
	}
	if p.rule, err = program.LimitRuleFor(y, p.limit.Value, p.sequestration.Value); err != nil {
		return p, err
	}
	if err := p.refuseWithoutMembers(); err != nil {
		return p, err
	}
	p.attribution = program.NewAttribution(p.producers, p.rule)
	for _, producer := range p.producers {
		p.places = append(p.places, p.attribution.Find(producer.ID))
	}
	p.tenAcres, err = newTenAcreRule(o, y)
	return p, err
}

// setting returns the user's own figure, or the law's row, which it notes.
func (p *payer) setting(id string, own map[crop.CropYear]float64) (farm.Figure, error) {
	if value, told := own[p.cropYear]; told {
		return farm.Figure{Value: value, Status: crop.Assumed, Source: "settings of the operation file"}, nil
	}
	row, err := law.Find(id, "", p.cropYear)
	if err != nil {
		return farm.Figure{}, err
	}
	p.rows = append(p.rows, row)
	return farm.Figure{Value: row.Number, Status: row.Status, Source: row.Citation()}, nil
}

// refuseWithoutMembers refuses an entity without members where the rule of the crop
// year goes by them. Files are refused when they are read, but for a crop year that
// they do not name.
func (p payer) refuseWithoutMembers() error {
	var mistakes farm.Mistakes
	for _, producer := range p.producers {
		if fault := producer.CheckMembers(p.cropYear); fault != nil {
			mistakes = append(mistakes, farm.Mistake{Value: producer.ID, Reason: fault.Reason, Hint: fault.Hint})
		}
	}
	if len(mistakes) > 0 {
		return mistakes
	}
	return nil
}

// pot returns the limit that a commodity counts against.
func (p payer) pot(c crop.Commodity) program.Pot {
	if _, err := law.Find("separate_limit", c, p.cropYear); err == nil {
		return program.Peanuts
	}
	return program.General
}

// concerns reports whether a farm's payments reach a recipient: a producer with a
// share in it, or an owner of one.
func (p payer) concerns(f farm.Farm, recipient string) bool {
	return slices.ContainsFunc(p.producers, func(earner farm.Producer) bool {
		return hasShare(f, earner.ID, p.cropYear) && (earner.ID == recipient || p.attribution.Owns(recipient, earner.ID))
	})
}
