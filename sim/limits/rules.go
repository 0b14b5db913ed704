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

	reach [][]program.Interest // whom a producer's payments reach, by producer (Attribution.Reach)
	pools map[crop.Commodity]program.LimitPool
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
	p.follow(program.NewAttribution(p.Producers, p.Rule))
	p.TenAcres, err = newTenAcreRule(o, y)
	return p, err
}

// follow sets the attribution and what is always asked of it.
func (p *Rules) follow(a program.Attribution) {
	p.Attribution, p.pools, p.Places, p.reach = a, map[crop.Commodity]program.LimitPool{}, nil, nil
	for _, producer := range p.Producers {
		place := a.Find(producer.ID)
		p.Places, p.reach = append(p.Places, place), append(p.reach, a.Reach(place))
	}
	for _, c := range crop.Commodities() {
		if _, err := law.Find("separate_limit", c, p.CropYear); err == nil {
			p.pools[c] = program.PeanutPool
		}
	}
}

// reachedBy returns the recipients whom payments of some producers reach, every entity
// before its owners.
func (p Rules) reachedBy(producers []int) (order []int) {
	reached := make([]bool, len(p.Attribution.Recipients))
	for _, j := range producers {
		for _, one := range p.reach[j] {
			reached[one.Recipient] = true
		}
	}
	for _, k := range p.Attribution.Order {
		if reached[k] {
			order = append(order, k)
		}
	}
	return order
}

// reaching returns the producers whose payments reach any of some recipients.
func (p Rules) reaching(recipients []int) (producers []int) {
	among := make([]bool, len(p.Attribution.Recipients))
	for _, k := range recipients {
		among[k] = true
	}
	for j, reach := range p.reach {
		if slices.ContainsFunc(reach, func(one program.Interest) bool { return among[one.Recipient] }) {
			producers = append(producers, j)
		}
	}
	return producers
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
func (p Rules) Pool(c crop.Commodity) program.LimitPool { return p.pools[c] }

// ReachedFrom returns the recipients whom payments of a farm can reach, by id: those with a
// share in the farm, and the owners of those.
func (p Rules) ReachedFrom(f farm.Farm) map[string]bool {
	reached := map[string]bool{}
	for _, j := range p.sharingIn(f) {
		for _, one := range p.reach[j] {
			reached[p.Attribution.Recipients[one.Recipient].ID] = true
		}
	}
	return reached
}

// sharingIn returns the producers with a share in a farm.
func (p Rules) sharingIn(f farm.Farm) (producers []int) {
	for j, producer := range p.Producers {
		if position.HasShare(f, producer.ID, p.CropYear) {
			producers = append(producers, j)
		}
	}
	return producers
}
