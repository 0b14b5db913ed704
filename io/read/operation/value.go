package operation

import (
	"fmt"

	"fencerow/io/read/countyname"
	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// mostMoney is the amount above which USD are taken for a slip: a judgement.
const mostMoney crop.Money = 1e10

func (r *reader) share(v document.Node, what string) (crop.Share, bool) {
	share, ok := r.Share(v, what)
	return share, ok && r.Check(v, farm.CheckShare(what, share))
}

func (r *reader) acres(v document.Node, what string) (crop.Acres, bool) {
	acres, ok := r.Number(v, what)
	return acres, ok && r.Check(v, farm.CheckAcres(what, acres))
}

func (r *reader) someAcres(v document.Node, what string) *crop.Acres {
	if acres, ok := r.acres(v, what); ok {
		return &acres
	}
	return nil
}

// money reads an amount in USD that cannot be negative.
func (r *reader) money(v document.Node, what string, _ crop.CropYear) (crop.Money, bool) {
	amount, ok := r.income(v, what)
	if ok && amount < 0 {
		r.Refuse(v, fmt.Sprintf("%s is %s", what, v.Text), "the amount cannot be negative")
		return 0, false
	}
	return amount, ok
}

// income reads an amount in USD of either sign.
func (r *reader) income(v document.Node, what string) (crop.Money, bool) {
	amount, ok := r.Number(v, what)
	if ok && (amount > mostMoney || amount < -mostMoney) {
		r.Refuse(v, fmt.Sprintf("%s is %s", what, v.Text), "write the amount in USD; look for digits too many")
		return 0, false
	}
	return amount, ok
}

func (r *reader) yield(v document.Node, what string, c crop.Commodity, kind farm.YieldKind) (crop.Yield, bool) {
	yield, ok := r.Number(v, what)
	return yield, ok && r.Check(v, farm.CheckYield(what, c, kind, yield))
}

// county reads a county by its code or its name.
func (r *reader) county(v document.Node, what string) string {
	text, ok := r.Text(v, what)
	if !ok {
		return ""
	}
	code, fault := countyname.Find(what, text)
	r.Check(v, fault)
	return code
}
