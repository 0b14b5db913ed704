package source

import (
	"fmt"
	"slices"

	"fencerow/io/read/countyname"
	"fencerow/io/read/record"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// FigureLine is one figure of a record, to be confirmed or changed.
type FigureLine struct {
	What  string // "farm 6101, corn on tract 8101: base acres"
	Value string
	Place string // "page 1 line 25", "as typed" or "not on the print"
}

// figureLine is such a line with what it stands for in the operation.
type figureLine struct {
	FigureLine
	key, help string
	get       func() string
	set       func(text string) *farm.Fault
}

// Lines returns every figure that was read, in the order of their numbers from 1; none
// while something is asked that has to be known first.
func (r *Recorded) Lines() (all []FigureLine) {
	for _, l := range r.lines {
		all = append(all, l.FigureLine)
	}
	return all
}

// lister makes the lines of one farm.
type lister struct {
	farm   *farm.Farm
	record *record.Record
	lines  []figureLine
}

// figureLinesOf are the lines of all farms; the records have the same order.
func figureLinesOf(o *farm.Operation, records []*record.Record) (all []figureLine) {
	for i := range o.Farms {
		l := lister{farm: &o.Farms[i], record: records[i]}
		l.all()
		all = append(all, l.lines...)
	}
	return all
}

// notPrinted stands where a figure has no place on the print.
const notPrinted = "not on the print"

func (l *lister) add(key, what, help string, at record.Place, get func() string, set func(string) *farm.Fault) {
	place := notPrinted
	if at.Line > 0 {
		place = at.String()
	}
	l.lines = append(l.lines, figureLine{FigureLine{fmt.Sprintf("farm %s, %s", l.farm.Number, what), get(), place}, key, help, get, set})
}

// all lists the farm, its bases, then what holds for a crop or the whole farm.
func (l *lister) all() {
	f, r := l.farm, l.record
	l.add("county", "county of the office", "Its name with its State, or its five digits.", r.County.Place,
		func() string { return nameOf(f.County) }, func(text string) *farm.Fault { return putCounty(&f.County, text) })
	for _, tract := range l.tracts() {
		l.tractCounty(tract)
	}
	for i := range f.Bases {
		l.base(&f.Bases[i])
	}
	for _, c := range f.Commodities() {
		l.commodity(c)
	}
	for _, a := range []struct {
		key, what string
		put       *crop.Acres
	}{{"total_acres", "farmland", f.TotalAcres}, {"cropland", "cropland", f.Cropland}} {
		if a.put != nil {
			l.acres(a.key, a.what, r.Landed(a.what).Place, a.put, farm.CheckAcres)
		}
	}
	if f.Unassigned > 0 {
		l.acres("unassigned_base_acres", "unassigned base acres", l.row("", "").Place, &f.Unassigned, farm.CheckAcres)
	}
	l.add("idle_2009_2017", "all cropland idle in 2009 to 2017", "yes or no. Such a farm is paid nothing for 2019 to 2031.", r.Eligibility.Place,
		func() string { return yesNo(f.Idle20092017) }, func(text string) *farm.Fault { return putTruth(&f.Idle20092017, text) })
	shares := *f.Shares.Every
	l.add("share", "your share of the crop", "100 if you own or cash rent it. The rest belongs to people outside the file.", record.Place{},
		func() string { return percentOf(shares[operator]) }, func(text string) *farm.Fault {
			return putPercent(text, "the share", func(s crop.Share) { shares[operator] = s })
		})
	if f.BeforeNotice != nil && *f.BeforeNotice {
		f.Notice = map[crop.Commodity]farm.NoticeBase{}
		for _, c := range f.Commodities() {
			l.notice(c)
		}
	}
}

// notice lists what the notice of new base has of a crop: not on the print, so not known
// until it is typed.
func (l *lister) notice(c crop.Commodity) {
	f := l.farm
	l.add("notice", c.Name()+": base acres on the 2026 notice", "As the notice prints it, old and new base together.", record.Place{},
		func() string {
			if n, has := f.Notice[c]; has {
				return plainNumber(n.BaseAcres)
			}
			return notKnown
		}, func(text string) *farm.Fault {
			return putNumber(text, "the figure", func(x float64) *farm.Fault {
				fault := farm.CheckBaseAcres("the figure", x)
				if fault == nil {
					f.Notice[c] = farm.NoticeBase{BaseAcres: x, PaymentYield: f.Notice[c].PaymentYield}
				}
				return fault
			})
		})
	l.add("notice", c.Name()+": PLC yield on the 2026 notice", "After its base acres. Without it that of the record holds.", record.Place{},
		func() string { return figureOrNot(f.Notice[c].PaymentYield) }, func(text string) *farm.Fault {
			yield, fault := paymentYieldOf(text, c)
			if fault != nil {
				return fault
			}
			n, has := f.Notice[c]
			if !has {
				return &farm.Fault{Reason: "the notice's base acres come first", Hint: "give the line before this one"}
			}
			n.PaymentYield = yield
			f.Notice[c] = n
			return nil
		})
}

// tracts are the tracts with base, in their order.
func (l *lister) tracts() (all []string) {
	for _, b := range l.farm.Bases {
		if b.Tract != "" && !slices.Contains(all, b.Tract) {
			all = append(all, b.Tract)
		}
	}
	slices.SortFunc(all, func(a, b string) int { return l.placeOf(a).Line - l.placeOf(b).Line })
	return all
}

// placeOf is where a tract begins.
func (l *lister) placeOf(tract string) record.Place {
	for _, t := range l.record.Parts {
		if t.Number.Text == tract {
			return t.Number.Place
		}
	}
	return record.Place{}
}

// tractCounty is the county in which all base of a tract lies.
func (l *lister) tractCounty(tract string) {
	var at record.Place
	for _, t := range l.record.Parts {
		if t.Number.Text == tract {
			at = t.County.Place
		}
	}
	get := func() string {
		for _, b := range l.farm.Bases {
			if b.Tract == tract {
				return nameOf(b.PhysicalCounty(*l.farm))
			}
		}
		return ""
	}
	l.add("county", "county where tract "+tract+" lies", "Its name with its State, or its five digits. ARC-CO pays by it.", at, get, func(text string) *farm.Fault {
		county := ""
		fault := putCounty(&county, text)
		for i := range l.farm.Bases {
			if b := &l.farm.Bases[i]; b.Tract == tract && fault == nil {
				b.County = county
			}
		}
		return fault
	})
}

// row is the row of the print that a base comes from; commodity "" is unassigned base.
func (l *lister) row(c crop.Commodity, tract string) *record.Crop {
	if tract == "" {
		for _, row := range l.record.Crops {
			if row.Commodity == c && row.Unassigned == (c == "") {
				return row
			}
		}
	}
	for _, t := range l.record.Parts {
		for _, row := range t.Crops {
			if (tract == "" || t.Number.Text == tract) && row.Commodity == c && row.Unassigned == (c == "") {
				return row
			}
		}
	}
	return &record.Crop{}
}

// base lists the figures of one base.
func (l *lister) base(b *farm.Base) {
	row, name := l.row(b.Commodity, b.Tract), b.Commodity.Name()
	if b.Tract != "" {
		name += " on tract " + b.Tract
	}
	l.acres("base_acres", name+": base acres", row.Base.Place, &b.BaseAcres, farm.CheckBaseAcres)
	l.add("payment_yield", name+": PLC yield", "In "+b.Commodity.Unit().Yield()+". Without it PLC cannot be worked out.", row.Yield.Place,
		func() string { return figureOrNot(b.PaymentYield) }, func(text string) *farm.Fault {
			yield, fault := paymentYieldOf(text, b.Commodity)
			if fault == nil {
				b.PaymentYield = yield
			}
			return fault
		})
	if b.CRPReduction > 0 {
		l.acres("crp_reduction", name+": CCC-505 reduction", row.Reduction.Place, &b.CRPReduction, farm.CheckAcres)
	}
}

// commodity lists what holds for all base of a crop.
func (l *lister) commodity(c crop.Commodity) {
	f := l.farm
	row := l.row(c, "")
	bases := func(do func(*farm.Base)) {
		for i := range f.Bases {
			if f.Bases[i].Commodity == c {
				do(&f.Bases[i])
			}
		}
	}
	l.add("irrigated_share", c.Name()+": HIP, percent irrigated", "The column HIP: history, not this year's pivots.", row.HIP.Place,
		func() string {
			if share := f.BasesOf(c)[0].IrrigatedShare; share != nil {
				return percentOf(*share)
			}
			return notKnown
		}, func(text string) *farm.Fault {
			return putPercent(text, "HIP", func(s crop.Share) { bases(func(b *farm.Base) { b.IrrigatedShare = &s }) })
		})
	var at record.Place
	for _, e := range l.record.Elections {
		if e.Commodity == c {
			at = e.Place
		}
	}
	l.add("election_on_record", c.Name()+": last election", "p for PLC, a for ARC-CO, i for ARC-IC.", at,
		func() string {
			if p := f.Record[c]; p != "" {
				return string(p)
			}
			return notKnown
		}, func(text string) *farm.Fault { return putElection(f, c, text) })
}

// acres lists acres that can be changed in place.
func (l *lister) acres(key, what string, at record.Place, put *crop.Acres, check func(string, crop.Acres) *farm.Fault) {
	l.add(key, what, "Acres, as the print has them.", at, func() string { return plainNumber(*put) }, func(text string) *farm.Fault {
		return putNumber(text, "the figure", func(x float64) *farm.Fault {
			fault := check("the figure", x)
			if fault == nil {
				*put = x
			}
			return fault
		})
	})
}

// notKnown stands for a figure that is not known.
const notKnown = "not known"

func figureOrNot(x *float64) string {
	if x == nil {
		return notKnown
	}
	return plainNumber(*x)
}

func yesNo(truth bool) string {
	if truth {
		return "yes"
	}
	return "no"
}

func putNumber(text, what string, put func(float64) *farm.Fault) *farm.Fault {
	x, fault := number(what, text)
	if fault != nil {
		return fault
	}
	return put(x)
}

func putTruth(to *bool, text string) *farm.Fault {
	truth, ok := spelling.Truth(text)
	if !ok {
		return &farm.Fault{Reason: fmt.Sprintf("%q is no answer", text), Hint: "write yes or no"}
	}
	*to = truth
	return nil
}

func putCounty(to *string, text string) *farm.Fault {
	code, fault := countyname.Find("the county", text)
	if fault == nil {
		*to = code
	}
	return fault
}

// putElection changes the last election of a crop. ARC-IC stands for all crops or none:
// that is held when the lines are confirmed.
func putElection(f *farm.Farm, c crop.Commodity, text string) *farm.Fault {
	p, fault := programMeant(text)
	if fault == nil {
		f.Record[c] = p
	}
	return fault
}

func putPercent(text, what string, put func(crop.Share)) *farm.Fault {
	_, fault := percentMeant(text, what, put)
	return fault
}
