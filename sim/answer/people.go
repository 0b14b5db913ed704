package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// payer holds the rules by which one crop year's payments reach people.
type payer struct {
	producers     []farm.Producer
	cropYear      crop.CropYear
	limit         crop.Money
	sequestration crop.Share
	figures       []law.Figure // the rows used, where the user gave no figure of his own
}

// payer reads the limit and the sequestration of the crop year, the user's own
// figures first.
func (c Case) payer(y crop.CropYear) (payer, error) {
	p := payer{producers: c.Operation.Producers, cropYear: y}
	var ok bool
	if p.limit, ok = c.Operation.Settings.PaymentLimit[y]; !ok {
		row, err := law.Find("payment_limit", "", y)
		if err != nil {
			return p, err
		}
		p.limit, p.figures = row.Number, append(p.figures, row)
	}
	if p.sequestration, ok = c.Operation.Settings.Sequestration[y]; !ok {
		row, err := law.Find("sequestration", "", y)
		if err != nil {
			return p, err
		}
		p.sequestration, p.figures = row.Number, append(p.figures, row)
	}
	return p, nil
}

// limitOf returns the payment limit of a producer for one of the two pots: a
// joint operation has one for each member, and so has a pass-through entity
// from the crop year in which the law says so.
func (p payer) limitOf(who farm.Producer) crop.Money {
	perMember := who.Kind == farm.JointOperation
	if who.Kind == farm.PassThrough {
		_, err := law.Find("pass_through_limit_per_member", "", p.cropYear)
		perMember = err == nil
	}
	if perMember {
		return p.limit * float64(max(1, len(who.Members)))
	}
	return p.limit
}

// apart reports whether a commodity has a payment limit of its own.
func (p payer) apart(c crop.Commodity) bool {
	_, err := law.Find("separate_limit", c, p.cropYear)
	return err == nil
}

// paid returns what a producer receives of a year's payments in USD after limit
// and sequestration; peanuts have a limit of their own (apart).
func (p payer) paid(who farm.Producer, general, peanuts crop.Money) crop.Money {
	if who.IncomeOverLimit {
		return 0 // 7 U.S.C. 1308-3a
	}
	limit, used := p.limitOf(who), who.LimitUsed[p.cropYear]
	within := program.AfterLimit(general, limit, used.General) + program.AfterLimit(peanuts, limit, used.Peanuts)
	return program.AfterSequestration(within, p.sequestration)
}

// flow is what one holding pays each producer in each draw under one program,
// USD after share.
type flow [][]crop.Money // flow[producer][draw]

// flows splits the payments of each base among the producers by their shares.
// It returns nil where the program has no figures.
func (p payer) flows(h *holding, byPart [][]crop.Money) flow {
	if byPart == nil {
		return nil
	}
	split := make(flow, len(p.producers))
	for j, producer := range p.producers {
		split[j] = make([]crop.Money, len(byPart[0]))
		for k, part := range h.parts {
			share := part.shares[producer.ID]
			if share == 0 {
				continue
			}
			for i, payment := range byPart[k] {
				split[j][i] += share * payment
			}
		}
	}
	return split
}

// total adds the bases of a holding.
func total(byPart [][]crop.Money) []crop.Money {
	if byPart == nil {
		return nil
	}
	sum := make([]crop.Money, len(byPart[0]))
	for _, payments := range byPart {
		for i, payment := range payments {
			sum[i] += payment
		}
	}
	return sum
}
