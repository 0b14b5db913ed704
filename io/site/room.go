package site

import (
	"fmt"
	"strings"

	"fencerow/io/read/countyname"
	"fencerow/io/show/page"
	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// roomAcres is the base of the room's farm; all that is shown is per base acre.
const roomAcres = "100"

// roomDraft is the farm that the room looks at: one base, with the price and the yield
// that are typed in place of ours, so that the odds follow them.
func (s *Site) roomDraft(r Request) draft {
	get := func(name string) string { return strings.TrimSpace(r.Form.Get(name)) }
	d := draft{known: map[string]string{}, farms: []typedFarm{{county: get("county"), bases: []typedBase{{crop: get("crop"), acres: roomAcres, yield: get("plc")}}}}}
	c, y := crop.Commodity(get("crop")), s.Today.Year()
	if price := get("price"); price != "" {
		d.known[priceField(c, y)] = price
	}
	code, fault := countyname.Find("the county", get("county"))
	if yield := get("yield"); yield != "" && fault == nil {
		d.known[yieldField(code, c, farm.AllPractices, y)] = yield
	}
	return d
}

// room shows one county and crop in large type, at a price and a yield that can be changed
// while people watch.
func (s *Site) room(_ draft, r Request) Response {
	f := newFrame("One county and crop, for a room")
	f.wide = true
	d := s.roomDraft(r)
	ready := d.farms[0].county != "" && d.farms[0].bases[0].crop != ""
	var c compared
	if ready {
		var err error
		if c, err = s.compare(d); err != nil {
			return s.sorry(500, err)
		}
	}
	f.roomForm(r)
	f.WriteString(`<div data-answer id="shown" aria-live="polite">` + "\n")
	switch {
	case !ready:
		f.WriteString("<p>Choose a county and a crop. Leave price and yields empty to begin with ours.</p>\n")
	case len(c.faults) > 0:
		f.summary(c.faults)
	default:
		f.shown(c, r)
	}
	f.WriteString("</div>\n")
	return f.response(200)
}

func (f *frame) roomForm(r Request) {
	f.form(roomPath, "")
	f.WriteString(`<div class="fields" data-live>`)
	f.text(input{name: "county", label: "County and State", value: r.Form.Get("county"), list: "counties"}, nil)
	f.WriteString(`<p><label for="crop">Crop</label><select name="crop" id="crop">`)
	f.option("", "", r.Form.Get("crop"))
	for _, c := range crop.Commodities() {
		f.option(string(c), wording.Capital(c.Name()), r.Form.Get("crop"))
	}
	f.WriteString("</select></p>\n")
	for _, in := range []input{{name: "price", label: "National price"}, {name: "yield", label: "County yield"}, {name: "plc", label: "PLC yield"}} {
		in.value, in.short = r.Form.Get(in.name), true
		f.text(in, nil)
	}
	f.WriteString("</div>\n<noscript><p class=\"buttons\"><button>Show</button></p></noscript></form>\n")
}

// shown is what the room sees: what is paid at the price and yield, the odds around them,
// and where the lead changes.
func (f *frame) shown(c compared, r Request) {
	of := c.found.CropYears[0].Farms[0]
	part := of.Commodities[0]
	if !triable(part) || part.Difference == nil {
		f.put("<p class=\"lead\">%s.</p>\n", wording.Capital(part.LeaderReason))
		return
	}
	paid := triesOf(c, Request{}).paid(of.Farm, part)
	b := part.Bases[0]
	f.put("<p class=\"lead\">%s</p>\n", fmt.Sprintf("%s in %s, crop year %d: price %s%s, county yield %s, PLC yield %s",
		wording.Capital(part.Commodity.Name()), wording.County(b), c.found.CropYears[0].CropYear, wording.PriceText(&part.MYA.Mean), priceMark(part, r), wording.YieldText(part.Commodity, b.CountyYield.Mean), plainOr(part.PaymentYield)))
	odds := wording.Chances(part.ChanceNeitherPays, part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceEqual)
	f.WriteString("<table class=\"room\"><caption>Dollars a base acre</caption><thead><tr><td></td><th scope=\"col\">PLC</th><th scope=\"col\">ARC-CO</th></tr></thead><tbody>\n")
	row := func(head string, plc, arc string) {
		f.put("<tr><th scope=\"row\">%s</th><td>%s</td><td>%s</td></tr>\n", head, plc, arc)
	}
	at := func(p farm.Program) string {
		if paid == nil || paid.Of(p) == nil {
			return "unknown"
		}
		return wording.Money(paid.Of(p).PaymentPerBaseAcre)
	}
	mean := func(p farm.Program) string {
		if figures := part.Programs.Of(p); figures != nil {
			return wording.Money(&figures.Mean)
		}
		return "unknown"
	}
	row("at just this price and yield", at(farm.PLC), at(farm.ARCCO))
	row("on average over all outcomes", mean(farm.PLC), mean(farm.ARCCO))
	row("pays more, of 100 outcomes", odds[2], odds[1])
	f.WriteString("</tbody></table>\n")
	f.put("<p class=\"lead\">Neither pays in %s of 100.</p>\n", odds[0])
	if body, err := page.Body(report.Report{Blocks: []report.Block{report.AtPrices(part)}}); err == nil {
		f.WriteString(body)
	}
}

func plainOr(d *answer.Dollars) string {
	if d == nil {
		return "not given"
	}
	return wording.Plain(d)
}

// priceMark says that a price is not final, or that it was typed to try it.
func priceMark(part answer.CommodityPart, r Request) string {
	if strings.TrimSpace(r.Form.Get("price")) != "" {
		return " (typed, taken as a projection)"
	}
	return wording.Mark(part.MYA.Status)
}
