package operation

import (
	"fmt"
	"math"
	"strings"
	"time"

	"fencerow/io/read/document"
	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// InsuranceFormat is the format line of the files that ParseInsurance reads.
const InsuranceFormat = "fencerow/insurance/1"

// FarmInsurance is area insurance and the farm that it names, by number or key.
type FarmInsurance struct {
	Farm string
	farm.Insurance
}

// ParseInsurance returns the area insurance in the text of a file of its own, for
// operations that are tables; name stands in messages. Its errors are those of Read.
func ParseInsurance(name string, text []byte) (all []FarmInsurance, err error) {
	root, err := document.Parse(name, text)
	if err != nil {
		return nil, err
	}
	r := &reader{Reader: document.NewReader(name)}
	if r.Format(root, InsuranceFormat) {
		r.Fields(root, "the insurance file", document.Must("format", func(document.Node) {}), document.Must("insurance", func(v document.Node) {
			r.Items(v, "insurance", func(item document.Node) {
				one := FarmInsurance{}
				one.Insurance = r.readInsured(item, "insurance", document.Must("farm", func(v document.Node) { one.Farm, _ = r.Name(v, "the farm number") }))
				all = append(all, one)
			})
		}))
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return all, nil
}

// readInsurance reads the area insurance of a farm.
func (r *reader) readInsurance(v document.Node, what string) (all []farm.Insurance) {
	r.Items(v, "insurance of "+what, func(item document.Node) { all = append(all, r.readInsured(item, "insurance of "+what)) })
	return all
}

// readInsured reads one crop; more are keys that stand beside its own.
func (r *reader) readInsured(item document.Node, what string, more ...document.Field) farm.Insurance {
	i := farm.Insurance{Share: 1}
	if c := item.Get("commodity"); c.Kind == document.Scalar {
		i.Commodity, _ = crop.ParseCommodity(c.Text)
		what = c.Text + " in " + what
	}
	usual := func(v document.Node, what string) (crop.Yield, bool) {
		return r.areaYield(v, what, i.Commodity, farm.Usual)
	}
	harvested := func(v document.Node, what string) (crop.Yield, bool) {
		return r.areaYield(v, what, i.Commodity, farm.Harvested)
	}
	r.Fields(item, what, append(more,
		document.Must("crop_year", func(v document.Node) { i.CropYear, _ = r.CropYear(v, "crop_year of "+what, farm.ProgramYears()) }),
		document.Must("commodity", func(v document.Node) { i.Commodity, _ = r.Commodity(v, "crop of "+what) }),
		document.May("practice", func(v document.Node) {
			i.Practice, _ = document.Word(r.Reader, v, "practice of "+what, farm.AllPractices, farm.Irrigated, farm.Nonirrigated)
		}),
		document.Must("plan", func(v document.Node) {
			i.Plan, _ = document.Spelled(r.Reader, v, "plan of "+what, spelling.Plan, farm.YieldProtection, farm.RevenueProtection, farm.HarvestPriceExclude)
		}),
		figure(document.May, "coverage_level", what, r.share, &i.Level), figure(document.May, "approved_yield", what, usual, &i.ApprovedYield),
		figure(document.Must, "acres", what, r.insuredAcres, &i.Acres), figure(document.May, "share", what, r.share, &i.Share),
		figure(document.Must, "projected_price", what, r.insuredPrice, &i.Projected), someFigure("harvest_price", what, r.insuredPrice, &i.Harvest),
		someFigure("volatility", what, r.volatility, &i.Volatility),
		figure(document.Must, "expected_area_yield", what, usual, &i.ExpectedYield), someFigure("final_area_yield", what, harvested, &i.FinalYield),
		figure(document.May, "area_yield_ratio", what, r.ratio, &i.YieldRatio),
		document.May("closes", func(v document.Node) {
			if day, ok := r.Date(v, "closes of "+what); ok {
				i.Closes = day.Format(time.DateOnly)
			}
		}),
		document.Must("layers", func(v document.Node) {
			r.Items(v, "layers of "+what, func(item document.Node) { i.Layers = append(i.Layers, r.readLayer(item, what)) })
		}))...)
	r.checkInsured(item, i, what)
	return i
}

// figure is a key whose value is read into a number.
func figure(of func(string, func(document.Node)) document.Field, key, what string, read func(document.Node, string) (float64, bool), into *float64) document.Field {
	return of(key, func(v document.Node) {
		if x, ok := read(v, key+" of "+what); ok {
			*into = x
		}
	})
}

// someFigure is a key whose value may be left out.
func someFigure(key, what string, read func(document.Node, string) (float64, bool), into **float64) document.Field {
	return document.May(key, func(v document.Node) {
		if x, ok := read(v, key+" of "+what); ok {
			*into = &x
		}
	})
}

// readLayer reads one layer.
func (r *reader) readLayer(item document.Node, what string) farm.Layer {
	l := farm.Layer{}
	name := item.Get("layer").Text + " on " + what
	amount := func(v document.Node, what string) (crop.Money, bool) { return r.money(v, what, 0) }
	r.Fields(item, name,
		document.Must("layer", func(v document.Node) {
			l.Program, _ = document.Spelled(r.Reader, v, "layer of "+what, func(text string) (farm.Program, bool) {
				p := farm.Program(strings.ToUpper(strings.TrimSpace(text)))
				return p, p == farm.SCO || p == farm.ECO || p == farm.STAX
			}, farm.SCO, farm.ECO, farm.STAX)
		}),
		figure(document.May, "trigger", name, r.share, &l.Trigger), figure(document.May, "range", name, r.share, &l.Range),
		figure(document.May, "coverage_percentage", name, r.share, &l.Percentage), figure(document.May, "protection_factor", name, r.ratio, &l.Percentage),
		someFigure("premium", name, amount, &l.Premium), someFigure("total_premium", name, amount, &l.Total))
	for _, two := range [][3]string{
		{"coverage_percentage", "protection_factor", "SCO and ECO have a coverage percentage, STAX a protection factor: give one"},
		{"premium", "total_premium", "give what you pay an acre (premium), or what it is before subsidy (total_premium)"},
	} {
		if item.Has(two[0]) && item.Has(two[1]) {
			r.Refuse(item.Get(two[1]), name+" has "+two[0]+" and "+two[1], two[2])
		}
	}
	return l
}

// checkInsured refuses what a layer cannot stand on.
func (r *reader) checkInsured(item document.Node, i farm.Insurance, what string) {
	if i.Commodity != "" && i.CropYear != 0 {
		r.Check(item.Get("commodity"), farm.CheckCovered(i.Commodity, i.CropYear))
	}
	seen := map[farm.Program]bool{}
	for n, l := range i.Layers {
		at := item.Get("layers").Items[n]
		switch {
		case l.Program == "":
		case seen[l.Program]:
			r.Refuse(at, fmt.Sprintf("%s stands twice on %s", l.Program, what), "give each layer once; acres insured otherwise are an entry of their own")
		case l.Program == farm.STAX && i.Plan == farm.YieldProtection:
			r.Refuse(item.Get("plan"), "STAX on "+what+" has plan YP", "STAX has RP or RP-HPE")
		case l.Program != farm.STAX && !(item.Has("coverage_level") && item.Has("approved_yield")):
			r.Refuse(item, fmt.Sprintf("%s on %s has no coverage_level or approved_yield", l.Program, what), "copy both of the policy below it from its schedule of insurance")
		}
		seen[l.Program] = true
	}
}

// areaYield reads a yield of a crop that was read.
func (r *reader) areaYield(v document.Node, what string, c crop.Commodity, kind farm.YieldKind) (crop.Yield, bool) {
	if c == "" {
		return 0, false
	}
	return r.yield(v, what, c, kind)
}

// within reads a number above 0 and at most most.
func (r *reader) within(v document.Node, what string, most float64, hint string) (float64, bool) {
	x, ok := r.Number(v, what)
	return x, ok && r.Check(v, farm.CheckFactor(what, x, most, hint))
}

func (r *reader) insuredPrice(v document.Node, what string) (crop.Price, bool) {
	return r.within(v, what, math.MaxFloat64, "write the price in dollars per unit of the crop")
}

func (r *reader) ratio(v document.Node, what string) (float64, bool) {
	return r.within(v, what, farm.MostFactor, "write a number above 0, at most 3")
}

func (r *reader) volatility(v document.Node, what string) (float64, bool) {
	return r.within(v, what, farm.MostVolatility, "write RMA's factor as 0.18")
}

func (r *reader) insuredAcres(v document.Node, what string) (crop.Acres, bool) {
	acres, ok := r.within(v, what, math.MaxFloat64, "write the planted acres that are insured")
	return acres, ok && r.Check(v, farm.CheckAcres(what, acres))
}
