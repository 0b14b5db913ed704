package flag

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// NotTogether says why a program and a layer on one crop of a farm do not go together, ""
// where they do.
func NotTogether(f farm.Farm, c crop.Commodity, y crop.CropYear, p, layer farm.Program) string {
	switch layer {
	case farm.SCO:
		if rule, err := law.Find("sco_with_arc", c, y); err == nil && rule.Text == "barred" && (p == farm.ARCCO || p == farm.ARCIC) {
			return fmt.Sprintf("%s with SCO: not allowed on a farm and crop in ARC for %d.", p, y)
		}
	case farm.STAX:
		if _, barred := STAXBars(f, c, y); barred && p != "" {
			return fmt.Sprintf("%s with STAX: not allowed where the farm is enrolled for seed cotton in %d. STAX is shown with that base not enrolled.", p, y)
		}
	}
	return ""
}

// pairs of layers and the rows that say whether both stand on the same acres.
var pairs = []struct {
	id   string
	with [2]farm.Program
}{
	{"area_sco_with_eco", [2]farm.Program{farm.SCO, farm.ECO}}, {"area_sco_with_stax", [2]farm.Program{farm.SCO, farm.STAX}}, {"area_eco_with_stax", [2]farm.Program{farm.ECO, farm.STAX}}}

// LayersApart says why two layers do not stand on the same acres, "" where they do.
func LayersApart(a, b farm.Program, y crop.CropYear) string {
	for _, pair := range pairs {
		if a == b || !slices.Contains(pair.with[:], a) || !slices.Contains(pair.with[:], b) {
			continue
		}
		rule, err := law.Find(pair.id, "", y)
		switch {
		case err != nil:
		case rule.Text == "barred":
			return fmt.Sprintf("%s with %s: not allowed on the same acres in %d (not confirmed).", a, b, y)
		case rule.Text == "unknown":
			return fmt.Sprintf("%s with %s: whether both are allowed on the same acres in %d is not known here.", a, b, y)
		}
	}
	return ""
}

// insured flags what hinders the area insurance that is typed, and when it can be bought.
func insured(c *Case) []answer.Flag {
	all, err := c.Question.Sources().Insured(c.Farm, c.CropYear)
	if err != nil || len(all) == 0 {
		return nil
	}
	flags := insuranceSales(c, all)
	for _, k := range all {
		flags = append(flags, insuredLayers(c, k)...)
		if k.HarvestPriceOut(c.Question.Today) {
			message := fmt.Sprintf("The %d harvest price of %s is not typed, and it may be published by now. Until it is typed, outcomes take it as open as it was at planting.", c.CropYear, k.Commodity.Name())
			flags = append(flags, answer.Flag{Code: "harvest_price_not_typed", Severity: answer.Warning, Message: message, Source: ""})
		}
		if planted := c.Farm.PlantedAcres(string(k.Commodity), c.CropYear); planted > 0 && k.Acres > planted+crop.Noise {
			message := fmt.Sprintf("%s acres of %s are insured, and %s are planted on this farm. Area insurance pays on planted acres: check both.", program.Text(k.Acres, 2), k.Commodity.Name(), program.Text(planted, 2))
			flags = append(flags, answer.Flag{Code: "insured_not_planted", Severity: answer.Warning, Message: message, Source: ""})
		}
	}
	return flags
}

// insuranceSales says of the insurance of a farm whether it can still be bought, the first to
// close first.
func insuranceSales(c *Case, all []*position.Insured) (flags []answer.Flag) {
	for _, standing := range []struct {
		is   string
		flag answer.Flag // its message with crop year and crops
	}{
		{position.InsuranceGiven, answer.Flag{Code: "insurance_given", Severity: answer.Info, Message: "Sales of area insurance for %d are closed: %s. That insurance is given, and counted as it stands."}},
		{position.InsuranceOpen, answer.Flag{Code: "insurance_open", Severity: answer.Info, Message: "Area insurance for %d can still be bought: %s. A licensed insurance agent quotes and decides."}},
		{position.InsuranceUnknown, answer.Flag{Code: "insurance_day_unknown", Severity: answer.Info, Message: "The last day to buy area insurance for %d is not known here: %s. Ask your insurance agent."}},
	} {
		var names []string
		source := ""
		for _, k := range all {
			if k.Standing(c.Question.Today) != standing.is {
				continue
			}
			closes, name := k.Closes(), k.Commodity.Name()
			if closes.Day != "" {
				name += " (" + dayText(closes.Day) + ")"
				source = closes.Source
			}
			names = AppendOnce(names, closes.Day+lastFirst+name)
		}
		slices.Sort(names) // by day
		for i, name := range names {
			_, names[i], _ = strings.Cut(name, lastFirst)
		}
		if len(names) > 0 {
			standing.flag.Message, standing.flag.Source = fmt.Sprintf(standing.flag.Message, c.CropYear, andList(names)), source
			flags = append(flags, standing.flag)
		}
	}
	return flags
}

// lastFirst parts the day to sort by from a name.
const lastFirst = "|"

// insuredLayers flags layers that cannot be had, that do not go with another or with what was
// last elected.
func insuredLayers(c *Case, k *position.Insured) (flags []answer.Flag) {
	name := k.Commodity.Name()
	for i, l := range k.Layers {
		if l.Missing != "" {
			flags = append(flags, answer.Flag{Code: "layer_not_offered", Severity: answer.Error, Message: fmt.Sprintf("%s on %s for %d has no figures: %s.", l.Program, name, c.CropYear, l.Missing), Source: sourceOf(l)})
		}
		if elected, has := c.Farm.Record[k.Commodity]; has && l.Program == farm.SCO && NotTogether(c.Farm, k.Commodity, c.CropYear, elected, l.Program) != "" {
			message := fmt.Sprintf("SCO on %s does not go with %s, last elected on this farm, for %d. Talk to your insurance agent before acres are reported.", name, elected, c.CropYear)
			flags = append(flags, answer.Flag{Code: "sco_barred_with_arc", Severity: answer.Error, Message: message, Source: CitationOf("sco_with_arc", c.CropYear)})
		}
		if day, err := law.Find("area_stax_test_day", k.Commodity, c.CropYear); err == nil && l.Program == farm.STAX {
			message := fmt.Sprintf("Whether this farm is enrolled for seed cotton is looked at on %s (not confirmed). That can be before enrollment ends.", dayText(fmt.Sprintf("%d-%s", c.CropYear, day.Text)))
			flags = append(flags, answer.Flag{Code: "stax_test_day", Severity: answer.Warning, Message: message, Source: day.Citation()})
		}
		for _, other := range k.Layers[:i] {
			if why := LayersApart(other.Program, l.Program, c.CropYear); why != "" {
				flags = append(flags, answer.Flag{Code: "layers_not_together", Severity: answer.Warning, Message: why + " Ask your insurance agent how acres can be split.", Source: sourceOf(l)})
			}
		}
	}
	return flags
}

// sourceOf cites the first row of a layer, "" where it has none.
func sourceOf(l position.InsuredLayer) string {
	if len(l.Terms.Rows) == 0 || l.Terms.Rows[0].Source == "" {
		return ""
	}
	return l.Terms.Rows[0].Citation()
}

// dayText writes YYYY-MM-DD for people.
func dayText(day string) string {
	d, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return answer.Day(d)
}
