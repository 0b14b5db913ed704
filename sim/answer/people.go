package answer

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/odds"
)

// payer holds the rules by which one crop year's payments reach people.
type payer struct {
	producers     []farm.Producer
	places        []int // of each producer among the recipients
	attribution   program.Attribution
	tenAcres      tenAcreRule
	cropYear      crop.CropYear
	limit         farm.Figure  // USD, of a person
	sequestration farm.Figure  // a share
	rows          []law.Figure // those used, where the user gave no figure of his own
}

// payer reads the limit and the sequestration of the crop year, the user's own
// figures first.
func (c Case) payer(y crop.CropYear) (payer, error) {
	p := payer{producers: c.Operation.Producers, cropYear: y}
	var err error
	if p.limit, err = p.setting("payment_limit", c.Operation.Settings.PaymentLimit); err != nil {
		return p, err
	}
	if p.sequestration, err = p.setting("sequestration", c.Operation.Settings.Sequestration); err != nil {
		return p, err
	}
	p.attribution = program.NewAttribution(p.producers, program.LimitRule{Limit: p.limit.Value, PassThroughPerMember: passThroughPerMember(y), CropYear: y})
	for _, producer := range p.producers {
		p.places = append(p.places, p.attribution.Find(producer.ID))
	}
	p.tenAcres, err = c.tenAcreRule(y)
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

// passThroughPerMember reports whether a pass-through entity has a limit for
// each member, as from the crop year in which the law says so.
func passThroughPerMember(y crop.CropYear) bool {
	_, err := law.Find("pass_through_limit_per_member", "", y)
	return err == nil
}

// pot returns the limit that a commodity counts against.
func (p payer) pot(c crop.Commodity) program.Pot {
	if _, err := law.Find("separate_limit", c, p.cropYear); err == nil {
		return program.Peanuts
	}
	return program.General
}

// flow is what one holding pays each producer in each draw under one program,
// USD after share.
type flow [][]crop.Money // flow[producer][draw]

// flows splits the payments of each base among the producers by their shares; a
// producer with too little base gets nothing. It returns nil where the program
// has no figures.
func (p payer) flows(h *holding, byPart [][]crop.Money) flow {
	if byPart == nil {
		return nil
	}
	split := make(flow, len(p.producers))
	for j := range split {
		split[j] = p.flowTo(j, h, byPart)
	}
	return split
}

// flowTo is the part of flows that goes to producer j; read it only.
func (p payer) flowTo(j int, h *holding, byPart [][]crop.Money) []crop.Money {
	id := p.producers[j].ID
	if len(h.parts) == 1 && h.parts[0].shares[id] == 1 && !p.tenAcres.bars(id, h.farm.Key()) {
		return byPart[0] // all of it
	}
	mine := make([]crop.Money, len(byPart[0]))
	if p.tenAcres.bars(id, h.farm.Key()) {
		return mine
	}
	for k, part := range h.parts {
		share := part.shares[id]
		if share == 0 {
			continue
		}
		for i, payment := range byPart[k] {
			mine[i] += share * payment
		}
	}
	return mine
}

// received is what each producer earns in each draw, by pot.
type received map[program.Pot][][]crop.Money // [pot][producer][draw]

// reach is what reaches each recipient over all draws.
type reach struct {
	before    []float64 // average attributed to it, before any limit
	after     []float64 // average paid, after limits and sequestration
	within    []float64 // average that its limits leave, before sequestration
	withheld  []float64 // average that arrived and its limit kept back, before sequestration
	atLimit   []float64 // share of outcomes in which a limit of it is filled
	total     float64   // average paid to all together
	exceeding bool      // some limit kept something back in some outcome
}

// reach follows what the producers earn to the persons behind them, draw by
// draw: limits first, then sequestration.
func (m purse) reach(earned received) reach {
	p := m.payer
	if p.unlimited(earned) {
		return m.reachUnlimited(earned)
	}
	n := len(p.attribution.Recipients)
	out := reach{before: p.attributed(earned), after: make([]float64, n), within: make([]float64, n), withheld: make([]float64, n), atLimit: make([]float64, n)}
	arrived, ended, own := make([]float64, n), make([]float64, n), make([]float64, n)
	kept, filled := make([]float64, n), make([]bool, n)
	for i := 0; i < earned.draws(); i++ {
		clear(kept)
		clear(filled)
		for _, pot := range []program.Pot{program.General, program.Peanuts} {
			if earned[pot] == nil {
				continue
			}
			clear(own)
			for j, at := range p.places {
				own[at] = earned[pot][j][i]
			}
			p.attribution.Trace(pot, own, arrived, ended)
			for k := range kept {
				kept[k] += ended[k]
				out.within[k] += p.attribution.Recipients[k].Within(pot, arrived[k])
				filled[k] = filled[k] || p.attribution.LimitReached(pot, k, arrived[k])
				if over := p.attribution.Over(pot, k, arrived[k]); over > 0 {
					out.withheld[k] += over
					out.exceeding = true
				}
			}
		}
		for k := range kept {
			out.after[k] += program.AfterSequestration(kept[k], p.sequestration.Value)
			if filled[k] {
				out.atLimit[k]++
			}
		}
	}
	for k := range out.after {
		for _, series := range [][]float64{out.after, out.within, out.withheld, out.atLimit} {
			series[k] /= float64(earned.draws())
		}
		out.total += out.after[k]
	}
	return out
}

// unlimited reports whether no limit is reached in any draw, whoever is paid: all
// producers together earn less than the least that any recipient has room for.
func (p payer) unlimited(earned received) bool {
	for pot, byProducer := range earned {
		room := math.Inf(1)
		for _, r := range p.attribution.Recipients {
			if r.Barred {
				return false
			}
			room = min(room, r.Room(pot))
		}
		for i := range earned.draws() {
			sum := 0.0
			for _, series := range byProducer {
				sum += series[i]
			}
			if sum >= room {
				return false
			}
		}
	}
	return true
}

// reachUnlimited is reach where no limit is reached: shares alone decide, and of
// each draw sequestration is withheld.
func (m purse) reachUnlimited(earned received) reach {
	p := m.payer
	n := len(p.attribution.Recipients)
	out := reach{before: p.attributed(earned), after: make([]float64, n), within: make([]float64, n), withheld: make([]float64, n), atLimit: make([]float64, n)}
	behind := make([][]crop.Share, len(p.places))
	for j, at := range p.places {
		behind[j] = p.attribution.Behind(at)
	}
	kept := m.buffers.take()
	defer m.buffers.give(kept)
	for k := range out.after {
		clear(kept)
		for _, byProducer := range earned {
			for j, series := range byProducer {
				if behind[j][k] != 0 {
					addScaled(kept, behind[j][k], series)
				}
			}
		}
		for i, x := range kept {
			kept[i] = program.AfterSequestration(x, p.sequestration.Value)
		}
		out.after[k] = odds.Mean(kept)
		out.total += out.after[k]
	}
	arrived, ended, own := make([]float64, n), make([]float64, n), make([]float64, n)
	for pot, byProducer := range earned {
		clear(own)
		for j, at := range p.places {
			own[at] = odds.Mean(byProducer[j])
		}
		p.attribution.Trace(pot, own, arrived, ended) // averages, as everything is proportional
		addScaled(out.within, 1, arrived)
	}
	return out
}

// attributed returns the average that stands behind each recipient before any
// limit, by shares alone.
func (p payer) attributed(earned received) []float64 {
	average := make([]float64, len(p.attribution.Recipients))
	for j, at := range p.places {
		mean := 0.0
		for _, series := range earned {
			mean += odds.Mean(series[j])
		}
		for k, part := range p.attribution.Behind(at) {
			average[k] += part * mean
		}
	}
	return average
}

// draws is the number of outcomes.
func (e received) draws() int {
	for _, series := range e {
		if len(series) > 0 {
			return len(series[0])
		}
	}
	return 0
}

// add adds what one holding pays the producers.
func (e received) add(b *buffers, pot program.Pot, f flow) {
	if e[pot] == nil {
		e[pot] = make([][]crop.Money, len(f))
		for j := range f {
			e[pot][j] = b.take()
			copy(e[pot][j], f[j])
		}
		return
	}
	for j := range f {
		addScaled(e[pot][j], 1, f[j])
	}
}

// release gives the series back.
func (e received) release(b *buffers) {
	for _, byProducer := range e {
		b.give(byProducer...)
	}
}

// swap replaces what one holding pays by what another program would pay.
func (e received) swap(pot program.Pot, out, in flow) {
	for j := range in {
		for i := range in[j] {
			e[pot][j][i] += in[j][i] - out[j][i]
		}
	}
}

// total adds the bases of a holding; read it only.
func total(byPart [][]crop.Money) []crop.Money {
	switch len(byPart) {
	case 0:
		return nil
	case 1:
		return byPart[0]
	}
	sum := make([]crop.Money, len(byPart[0]))
	for _, payments := range byPart {
		for i, payment := range payments {
			sum[i] += payment
		}
	}
	return sum
}
