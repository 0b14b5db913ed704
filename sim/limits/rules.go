package limits

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/position"
)

// Rules are those by which one crop year's payments reach people, and the producers they
// are applied to.
type Rules struct {
	Producers     []farm.Producer
	Places        []int // place among Attribution.Recipients, by producer
	Rule          program.LimitRule
	Attribution   program.Attribution // in dollars before sequestration
	TenAcres      tenAcreRule
	CropYear      crop.CropYear
	Limit         farm.Figure  // of a person, USD
	Sequestration farm.Figure  // share of a payment, 0 to 1
	Order         law.Figure   // of sequestration and limit
	Rows          []law.Figure // of the law that were used; none for a figure the user stated
}

// NewRules returns the rules of a crop year. A limit or sequestration in the operation's
// settings replaces that of the law. It is an error if the law has no row for the crop
// year, or an entity has no members where the rule needs them.
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

// setting returns the figure the user stated, else that of the law, whose row it adds to
// Rows.
func (p *Rules) setting(id string, stated map[crop.CropYear]float64) (farm.Figure, error) {
	if value, has := stated[p.CropYear]; has {
		return farm.Figure{Value: value, Status: crop.Assumed, Source: "settings of the operation file"}, nil
	}
	row, err := law.Find(id, "", p.CropYear)
	if err != nil {
		return farm.Figure{}, err
	}
	p.Rows = append(p.Rows, row)
	return farm.Figure{Value: row.Number, Status: row.Status, Source: row.Citation()}, nil
}

// refuseWithoutMembers returns an error (farm.Mistakes) for each entity without members
// that the crop year's rule needs. Reading a file checks the crop years it names; this
// covers the others.
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

// Pool returns the limit pool that payments of a commodity count against.
func (p Rules) Pool(c crop.Commodity) program.LimitPool {
	if _, err := law.Find("separate_limit", c, p.CropYear); err == nil {
		return program.PeanutPool
	}
	return program.GeneralPool
}

// Concerns reports whether a farm's payments can reach a recipient: it has a share in the
// farm, or owns part of a producer that has.
func (p Rules) Concerns(f farm.Farm, recipient string) bool {
	return slices.ContainsFunc(p.Producers, func(producer farm.Producer) bool {
		return position.HasShare(f, producer.ID, p.CropYear) && (producer.ID == recipient || p.Attribution.Owns(recipient, producer.ID))
	})
}
