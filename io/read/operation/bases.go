package operation

import (
	"fmt"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// place names what can stand once on a farm: a base by tract, commodity and
// county.
type place struct {
	tract, county string
	commodity     crop.Commodity
}

// readBases reads the bases of a farm. A farm without base is read only where
// plantings or unassigned base are given, from which new base may arise.
func (r *reader) readBases(v document.Node, f *farm.Farm, what string) {
	if v.Kind == document.Empty {
		return
	}
	lines := map[place]int{}
	yields := map[crop.Commodity]crop.Yield{} // of bases without a tract
	r.Items(v, "bases of "+what, func(item document.Node) {
		b := r.readBase(item, what)
		if b.Commodity == "" {
			return
		}
		at := place{b.Tract, b.PhysicalCounty(*f), b.Commodity}
		if line, twice := lines[at]; twice {
			r.Refuse(item, fmt.Sprintf("%s stands twice on %s in one tract and county", b.Commodity.Name(), what), fmt.Sprintf("it is also on line %d; join both, or give each its tract or county", line))
			return
		}
		lines[at] = item.Line
		if b.Tract == "" && b.PaymentYield != nil {
			if first, known := yields[b.Commodity]; known && first != *b.PaymentYield {
				r.Refuse(item.Get("payment_yield"), fmt.Sprintf("%s on %s has two PLC yields", b.Commodity.Name(), what), "a farm has one PLC yield for a crop. If it differs by tract, give the tracts")
			}
			yields[b.Commodity] = *b.PaymentYield
		}
		f.Bases = append(f.Bases, b)
	})
}

func (r *reader) readBase(item document.Node, what string) farm.Base {
	b := farm.Base{}
	name, acresOf := "base", "base acres"
	r.Fields(item, "a base of "+what,
		document.Must("commodity", func(v document.Node) {
			if c, ok := r.Commodity(v, "crop of a base of "+what); ok {
				b.Commodity, name, acresOf = c, c.Name(), c.Name()+" base acres"
				r.coveredInAll(v, c)
			}
		}),
		document.Must("base_acres", func(v document.Node) {
			if acres, ok := r.Number(v, acresOf); ok && r.Check(v, farm.CheckBaseAcres(acresOf, acres)) {
				b.BaseAcres = acres
			}
		}),
		document.May("payment_yield", func(v document.Node) {
			if b.Commodity == "" {
				return
			}
			if yield, ok := r.yield(v, name+" PLC yield", b.Commodity, farm.Usual); ok {
				b.PaymentYield = &yield
			}
		}),
		document.May("tract", func(v document.Node) { b.Tract, _ = r.Name(v, "tract of "+name) }),
		document.May("county", func(v document.Node) { b.County = r.county(v, "county of "+name) }),
		document.May("irrigated_share", func(v document.Node) {
			if share, ok := r.share(v, name+" irrigated_share"); ok {
				b.IrrigatedShare = &share
			}
		}),
		document.May("crp_reduction", func(v document.Node) { b.CRPReduction, _ = r.acres(v, name+" crp_reduction") }),
		document.May("shares", func(v document.Node) { b.Shares = r.readShareSet(v, "shares of "+name+" on "+what) }))
	return b
}

// coveredInAll refuses a commodity that the law does not cover in a crop year
// the operation asks about.
func (r *reader) coveredInAll(v document.Node, c crop.Commodity) {
	for _, year := range r.operation.CropYears {
		if !r.Check(v, farm.CheckCovered(c, year)) {
			return
		}
	}
}

func (r *reader) readPlanted(v document.Node, f *farm.Farm, what string) {
	if v.Kind == document.Empty {
		return
	}
	r.Items(v, "planted of "+what, func(item document.Node) {
		p := farm.Planting{Practice: farm.AllPractices}
		name, covered := "planted crop", crop.Commodity("")
		r.Fields(item, "planted of "+what,
			document.Must("crop_year", func(v document.Node) { p.CropYear, _ = r.CropYear(v, "crop_year of planted", farm.HistoryYears()) }),
			document.Must("commodity", func(v document.Node) {
				if v.Text == farm.FruitVegetables || v.Text == farm.OtherNoncovered {
					p.Commodity, name = v.Text, v.Text
				} else if c, ok := r.Commodity(v, "crop of planted ("+farm.FruitVegetables+" and "+farm.OtherNoncovered+" can also stand there)"); ok {
					p.Commodity, name, covered = string(c), c.Name(), c
				}
			}),
			document.May("practice", func(v document.Node) {
				p.Practice, _ = document.Word(r.Reader, v, "practice of "+name, farm.AllPractices, farm.Irrigated, farm.Nonirrigated)
			}),
			document.Must("acres", func(v document.Node) { p.Acres, _ = r.acres(v, name+" acres planted") }),
			document.May("on_base", func(v document.Node) {
				if acres, ok := r.acres(v, "on_base of "+name); ok {
					p.OnBase = &acres
				}
			}),
			document.May("prevented", func(v document.Node) { p.Prevented, _ = r.acres(v, name+" acres prevented") }),
			document.May("yield", func(v document.Node) { p.Yield = r.plantedYield(v, name, covered) }))
		r.checkOnBase(item, p)
		f.Planted = append(f.Planted, p)
	})
}

// checkOnBase refuses acres on base that are more than were planted, or of a crop
// that is not distinguished by base.
func (r *reader) checkOnBase(item document.Node, p farm.Planting) {
	v := item.Get("on_base")
	switch {
	case p.OnBase == nil:
	case p.Commodity != farm.FruitVegetables:
		r.Refuse(v, "on_base is given for "+item.Get("commodity").Text, "only plantings of "+farm.FruitVegetables+" are split by base: leave it out")
	case *p.OnBase > p.Acres:
		r.Refuse(v, fmt.Sprintf("on_base is %s, more than the %s acres planted", v.Text, item.Get("acres").Text), "give the part of the acres planted that lies on base acres")
	}
}

// plantedYield reads a yield of a planting; only that of a covered commodity
// has a known unit.
func (r *reader) plantedYield(v document.Node, name string, c crop.Commodity) *crop.Yield {
	yield, ok := r.Number(v, name+" yield")
	if !ok || c != "" && !r.Check(v, farm.CheckYield(name+" yield", c, farm.Harvested, yield)) {
		return nil
	}
	if yield < 0 {
		r.Refuse(v, name+" yield is "+v.Text, "a yield cannot be negative")
		return nil
	}
	return &yield
}
