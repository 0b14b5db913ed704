package limits

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/position"
)

// Rules holds the rules by which one crop year's payments reach people.
type Rules struct {
	Producers     []farm.Producer
	Places        []int // of each producer among the recipients
	Rule          program.LimitRule
	Attribution   program.Attribution // in dollars before sequestration
	TenAcres      tenAcreRule
	CropYear      crop.CropYear
	Limit         farm.Figure  // USD, of a person
	Sequestration farm.Figure  // a share
	Order         law.Figure   // of sequestration and limit
	Rows          []law.Figure // those used, where the user gave no figure of his own
}

// NewRules reads the limit and the sequestration of the crop year, the user's own
// figures first.
func NewRules(o farm.Operation, y crop.CropYear) (Rules, error) {
	p := Rules{Producers: o.Producers, CropYear: y}
	var err error
	if p.Limit, err = p.setting("payment_limit", o.Settings.PaymentLimit); err != nil {
		return p, err
	}
	if p.Sequestration, err = p.setting("sequestration", o.Settings.Sequestration); err != nil {
		return p, err
	}
	if p.Order, err = law.Find("order_of_reductions", "", y); err != nil {
		return p, err
	}
	if p.Rule, err = program.LimitRuleFor(y, p.Limit.Value, p.Sequestration.Value); err != nil {
		return p, err
	}
	if err := p.refuseWithoutMembers(); err != nil {
		return p, err
	}
	p.Attribution = program.NewAttribution(p.Producers, p.Rule)
	for _, producer := range p.Producers {
		p.Places = append(p.Places, p.Attribution.Find(producer.ID))
	}
	p.TenAcres, err = newTenAcreRule(o, y)
	return p, err
}

// setting returns the user's own figure, or the law's row, which it notes.
func (p *Rules) setting(id string, own map[crop.CropYear]float64) (farm.Figure, error) {
	if value, told := own[p.CropYear]; told {
		return farm.Figure{Value: value, Status: crop.Assumed, Source: "settings of the operation file"}, nil
	}
	row, err := law.Find(id, "", p.CropYear)
	if err != nil {
		return farm.Figure{}, err
	}
	p.Rows = append(p.Rows, row)
	return farm.Figure{Value: row.Number, Status: row.Status, Source: row.Citation()}, nil
}

// refuseWithoutMembers refuses an entity without members where the rule of the crop
// year goes by them. Files are refused when they are read, but for a crop year that
// they do not name.
func (p Rules) refuseWithoutMembers() error {
	var mistakes farm.Mistakes
	for _, producer := range p.Producers {
		if fault := producer.CheckMembers(p.CropYear); fault != nil {
			mistakes = append(mistakes, farm.Mistake{Value: producer.ID, Reason: fault.Reason, Hint: fault.Hint})
		}
	}
	if len(mistakes) > 0 {
		return mistakes
	}
	return nil
}

// Pool returns the limit that a commodity counts against.
func (p Rules) Pool(c crop.Commodity) program.LimitPool {
	if _, err := law.Find("separate_limit", c, p.CropYear); err == nil {
		return program.PeanutPool
	}
	return program.GeneralPool
}

// Concerns reports whether a farm's payments reach a recipient: a producer with a
// share in it, or an owner of one.
func (p Rules) Concerns(f farm.Farm, recipient string) bool {
	return slices.ContainsFunc(p.Producers, func(earner farm.Producer) bool {
		return position.HasShare(f, earner.ID, p.CropYear) && (earner.ID == recipient || p.Attribution.Owns(recipient, earner.ID))
	})
}
