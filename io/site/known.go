package site

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/market"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// known shows the prices and county yields that the answer would use, and takes others.
func (s *Site) known(d draft, r Request) Response {
	if len(d.farms) == 0 {
		return s.landPage(d, nil, false)
	}
	for _, file := range r.Files {
		if file.Field != "market" || len(file.Text) == 0 {
			continue
		}
		if _, err := market.Parse(file.Name, file.Text); err != nil {
			wrong := faults{}
			wrong.keep(err, nil)
			wrong["market"] = wrong[""]
			delete(wrong, "")
			return s.knownPage(d, wrong)
		}
		d.market = string(file.Text)
	}
	switch r.Form.Get("do") {
	case "next":
		if wrong := d.withoutStage(); len(wrong) > 0 {
			return s.knownPage(d, wrong)
		}
		return s.answer(d, Request{Path: answerPath})
	case "back":
		return s.sharesPage(d, nil)
	}
	return s.knownPage(d, nil)
}

func (s *Site) knownPage(d draft, wrong faults) Response {
	usual := d
	usual.known = map[string]string{} // ours, beside which the typed ones stand
	c, err := s.compare(usual)
	if err != nil {
		return s.sorry(500, err)
	}
	if len(c.faults) > 0 {
		return s.landPage(d, c.faults, false)
	}
	f := newFrame("What is known of prices and your county?")
	f.step = knownPath
	f.summary(wrong)
	f.put("<p>These are the figures that the answer uses. Leave a box empty to keep ours. Prices are of %s.</p>\n", wording.Date(c.found.Market.AsOf))
	f.form(knownPath, "page")
	f.prices(c.found, d, wrong)
	f.WriteString(`<p><label for="market">A market file with newer prices, if you have one</label> <input type="file" id="market" name="market" accept=".yaml,.yml"` + described("market", wrong) + `></p>` + "\n")
	f.wrong("market", wrong)
	f.yields(c.found, d, wrong)
	f.WriteString(`<p class="buttons"><button name="do" value="next">See the answer</button> <button name="do" value="back" class="second">Back to the shares</button></p>` + "\n")
	f.hidden(d, func(name string) bool { return isKnown(name) && !strings.HasPrefix(name, "s.asked.") })
	f.WriteString("</form>\n")
	return f.response(200)
}

// withoutStage asks what each typed county yield is from: the odds depend on it.
func (d *draft) withoutStage() faults {
	wrong := faults{}
	for _, name := range sortedKeys(d.known) {
		if _, rest, ok := yieldKey(name); ok && d.known["s."+rest] == "" {
			wrong.add("s."+rest, farm.Fault{Reason: "what the yield is from is not chosen", Hint: "choose it in the list: the odds depend on it"})
		}
	}
	return wrong
}

// prices shows the national prices, each once.
func (f *frame) prices(c answer.Comparison, d draft, wrong faults) {
	y := c.CropYears[0]
	f.put("<fieldset>\n<legend>National prices of crop year %s</legend>\n<div class=\"fields\">", fmt.Sprint(y.CropYear))
	shown := map[crop.Commodity]bool{}
	var sources []string
	for _, of := range y.Farms {
		for _, part := range of.ByStake() {
			if shown[part.Commodity] || part.MYA == nil {
				continue
			}
			shown[part.Commodity] = true
			name := priceField(part.Commodity, y.CropYear)
			f.text(input{name: name, label: wording.Capital(part.Commodity.Name()) + ", $ a " + part.Commodity.Unit().Mass, value: d.known[name], short: true,
				help: "Ours: " + wording.PriceText(&part.MYA.Mean) + wording.Mark(part.MYA.Status)}, wrong)
			if source := wording.FirstSentences(part.MYA.Source+".", 1); !slices.Contains(sources, source) {
				sources = append(sources, source)
			}
		}
	}
	f.put("</div>\n<p class=\"help\">Ours are from: %s</p>\n</fieldset>\n", strings.Join(sources, " "))
}

// ladder is what a county yield may be from, from the least sure to final.
var ladder = []struct{ stage, words string }{
	{wording.BeforeHarvest, "nothing yet: before harvest"}, {"state_report", "USDA's report for the State"}, {"local_harvest", "growers or the elevator here"},
	{"county_estimate", "USDA's county estimate"}, {"insurance_yield", "the county yield of crop insurance"}, {"final", "FSA's own final yield"},
}

// yields shows the county yields, each once.
func (f *frame) yields(c answer.Comparison, d draft, wrong faults) {
	y := c.CropYears[0]
	f.put("<fieldset>\n<legend>County yields of crop year %s</legend>\n", fmt.Sprint(y.CropYear))
	shown := map[string]bool{}
	for _, of := range y.Farms {
		for _, part := range of.ByStake() {
			for _, b := range counted(part) {
				name := yieldField(b.County, part.Commodity, practiceOf(b), y.CropYear)
				if shown[name] || b.CountyYield == nil {
					continue
				}
				shown[name] = true
				f.countyYield(name, part, b, d, wrong)
			}
		}
	}
	f.WriteString("</fieldset>\n")
}

func practiceOf(b answer.BasePart) farm.Practice {
	if b.Practice == "" {
		return farm.AllPractices
	}
	return farm.Practice(b.Practice)
}

func (f *frame) countyYield(name string, part answer.CommodityPart, b answer.BasePart, d draft, wrong faults) {
	label := wording.Capital(part.Commodity.Name())
	if practiceOf(b) != farm.AllPractices {
		label += " " + b.Practice
	}
	f.WriteString("<div class=\"fields wider\">")
	f.text(input{name: name, label: fmt.Sprintf("%s in %s, %ss an acre", label, wording.County(b), part.Commodity.Unit().Mass), value: d.known[name], short: true,
		help: "Ours: " + wording.YieldText(part.Commodity, b.CountyYield.Mean) + ", " + wording.KnownFrom(b.CountyYield.KnownFrom)}, wrong)
	stage := "s." + strings.TrimPrefix(name, "y.")
	f.put(`<p><label for="%s">What is yours from?</label><select name="%s" id="%s"`+described(stage, wrong)+`>`, stage, stage, stage)
	f.option("", "", d.known[stage])
	for _, step := range ladder {
		f.option(step.stage, step.words, d.known[stage])
	}
	f.WriteString("</select></p></div>\n")
	f.wrong(stage, wrong)
	f.put("<details><summary>Where ours comes from</summary><p class=\"help\">%s</p></details>\n", wording.FirstSentences(wording.Capital(b.CountyYield.MeanFrom)+".", 1))
}
