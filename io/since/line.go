package since

import (
	"encoding/json"
	"strconv"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// key is a line of an answer.
type key struct {
	farm      string
	commodity crop.Commodity
	year      crop.CropYear
}

// line has the figures of a line as the JSON writes them, "" for null. part is what they
// were made from; nil of a line that was read.
type line struct {
	lead, margin, plc, arcCO, baseAcres string
	part                                *answer.CommodityPart
}

// SameAs reports whether no figure has moved.
func (l line) SameAs(other line) bool {
	l.part, other.part = nil, nil
	return l == other
}

// Lead is the line's verdict.
func (l line) Lead() string { return l.lead }

// side has the figures as numbers.
func (l line) side() answer.MovedSide {
	amount := func(text string) *answer.Dollars {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return nil
		}
		return answer.DollarsOf(x)
	}
	return answer.MovedSide{Lead: l.lead, Margin: amount(l.margin), PLC: amount(l.plc), ARCCO: amount(l.arcCO), BaseAcres: amount(l.baseAcres)}
}

// lines are those of an answer, with their order.
type lines struct {
	of    map[key]line
	order []key
}

func (l *lines) add(k key, one line) {
	if l.of == nil {
		l.of = map[key]line{}
	}
	l.of[k], l.order = one, append(l.order, k)
}

// linesOf are the lines of an answer.
func linesOf(c answer.Comparison) (all lines) {
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			for i := range f.Commodities {
				part := &f.Commodities[i]
				one := line{lead: string(part.Leader), baseAcres: text(&part.BaseAcres), plc: averageOf(part, farm.PLC), arcCO: averageOf(part, farm.ARCCO), part: part}
				if part.Difference != nil {
					one.margin = text(&part.Difference.Mean)
				}
				all.add(key{f.Farm, part.Commodity, y.CropYear}, one)
			}
		}
	}
	return all
}

func averageOf(part *answer.CommodityPart, p farm.Program) string {
	if figures := part.Programs.Of(p); figures != nil {
		return text(&figures.Mean)
	}
	return ""
}

// text writes a figure as the JSON does.
func text(d *answer.Dollars) string { return program.Text(float64(*d), 2) }

// asWritten is a number with two decimals, however a program between wrote it.
func asWritten(n json.Number) string {
	x, err := n.Float64()
	if err != nil {
		return ""
	}
	return program.Text(x, 2)
}

// lines are those of the answer that was read.
func (l *Last) lines() (all lines) {
	for _, y := range l.answer.CropYears {
		for _, f := range y.Farms {
			for _, c := range f.Commodities {
				one := line{lead: c.Leader, baseAcres: asWritten(c.BaseAcres)}
				if c.Difference != nil {
					one.margin = asWritten(c.Difference.Mean)
				}
				if p := c.Programs[farm.PLC]; p != nil {
					one.plc = asWritten(p.Mean)
				}
				if p := c.Programs[farm.ARCCO]; p != nil {
					one.arcCO = asWritten(p.Mean)
				}
				all.add(key{f.Farm, c.Commodity, y.CropYear}, one)
			}
		}
	}
	return all
}
