package operation

import (
	"fmt"
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
				one.Insurance = r.readInsured(item, "insurance", document.Must("farm", func(v document.Node) { one.Farm, _ = r.Text(v, "the farm number") }))
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
	yield := func(v document.Node, key string, kind farm.YieldKind) (crop.Yield, bool) {
		if i.Commodity == "" {
			return 0, false
		}
		return r.yield(v, key+" of "+what, i.Commodity, kind)
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
		document.May("coverage_level", func(v document.Node) { i.Level, _ = r.share(v, "coverage_level of "+what) }),
		document.May("approved_yield", func(v document.Node) { i.ApprovedYield, _ = yield(v, "approved_yield", farm.Usual) }),
		document.Must("acres", func(v document.Node) {
			if i.Acres, _ = r.acres(v, "insured acres of "+what); i.Acres == 0 {
				r.Refuse(v, "insured acres of "+what+" are "+v.Text, "write the planted acres that are insured")
			}
		}),
		document.May("share", func(v document.Node) { i.Share, _ = r.share(v, "share of "+what) }),
		document.Must("projected_price", func(v document.Node) { i.Projected = r.insuredPrice(v, "projected_price of "+what) }),
		document.May("harvest_price", func(v document.Node) {
			if price := r.insuredPrice(v, "harvest_price of "+what); price > 0 {
				i.Harvest = &price
			}
		}),
		document.May("volatility", func(v document.Node) { i.Volatility = r.volatility(v, "volatility of "+what) }),
		document.Must("expected_area_yield", func(v document.Node) { i.ExpectedYield, _ = yield(v, "expected_area_yield", farm.Usual) }),
		document.May("final_area_yield", func(v document.Node) {
			if final, ok := yield(v, "final_area_yield", farm.Harvested); ok {
				i.FinalYield = &final
			}
		}),
		document.May("area_yield_ratio", func(v document.Node) { i.YieldRatio = r.ratio(v, "area_yield_ratio of "+what) }),
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

// readLayer reads one layer.
func (r *reader) readLayer(item document.Node, what string) farm.Layer {
	l := farm.Layer{}
	name := "a layer of " + what
	amount := func(v document.Node, key string) *crop.Money {
		if typed, ok := r.money(v, key+" of "+name, 0); ok {
			return &typed
		}
		return nil
	}
	r.Fields(item, name,
		document.Must("layer", func(v document.Node) {
			l.Program, _ = document.Spelled(r.Reader, v, "layer of "+what, func(text string) (farm.Program, bool) {
				p := farm.Program(strings.ToUpper(strings.TrimSpace(text)))
				return p, p == farm.SCO || p == farm.ECO || p == farm.STAX
			}, farm.SCO, farm.ECO, farm.STAX)
			name = string(l.Program) + " on " + what
		}),
		document.May("trigger", func(v document.Node) { l.Trigger, _ = r.share(v, "trigger of "+name) }),
		document.May("range", func(v document.Node) { l.Range, _ = r.share(v, "range of "+name) }),
		document.May("coverage_percentage", func(v document.Node) { l.Percentage, _ = r.share(v, "coverage_percentage of "+name) }),
		document.May("protection_factor", func(v document.Node) {
			l.Percentage = r.ratio(v, "protection_factor of "+name)
			if item.Has("coverage_percentage") {
				r.Refuse(v, name+" has coverage_percentage and protection_factor", "SCO and ECO have a coverage percentage, STAX a protection factor: give one")
			}
		}),
		document.May("premium", func(v document.Node) { l.Premium = amount(v, "premium") }),
		document.May("total_premium", func(v document.Node) {
			l.Total = amount(v, "total_premium")
			if item.Has("premium") {
				r.Refuse(v, name+" has premium and total_premium", "give what you pay an acre (premium), or what it is before subsidy (total_premium)")
			}
		}))
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

// insuredPrice reads a price of crop insurance, USD per unit; 0 where it is refused.
func (r *reader) insuredPrice(v document.Node, what string) crop.Price {
	price, ok := r.Number(v, what)
	if ok && price <= 0 {
		r.Refuse(v, what+" is "+v.Text, "write the price in dollars per unit of the crop")
	}
	if !ok || price <= 0 {
		return 0
	}
	return price
}

// Bounds of what is typed as a factor. Judgements.
const mostRatio, mostVolatility = 3, 1

// ratio reads a factor above 0.
func (r *reader) ratio(v document.Node, what string) float64 {
	x, ok := r.Number(v, what)
	if ok && (x <= 0 || x > mostRatio) {
		r.Refuse(v, what+" is "+v.Text, fmt.Sprintf("write a number above 0, at most %d", mostRatio))
	}
	if !ok {
		return 0
	}
	return x
}

// volatility reads RMA's volatility factor.
func (r *reader) volatility(v document.Node, what string) *float64 {
	x, ok := r.Number(v, what)
	if ok && (x <= 0 || x > mostVolatility) {
		r.Refuse(v, what+" is "+v.Text, "write RMA's factor as 0.18")
	}
	if !ok {
		return nil
	}
	return &x
}
