package wording

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fencerow/program"
	"fencerow/sim/answer"
)

// MovedBy says in sentences what moved some lines that are put down to the same one input:
// "The corn price did it on 0417 corn: $4.10 then, $4.35 now." on names the lines. Several
// figures of that input are told one by one.
func MovedBy(l answer.SinceLine, on string) string {
	figures := figuresOf(l)
	if len(figures) == 1 {
		return fmt.Sprintf("%s did it on %s: %s.", Capital(figureName(l, figures[0])), on, thenNow(l, figures[0]))
	}
	said := []string{fmt.Sprintf("%s did it on %s.", Capital(wholeKind(l)), on)}
	for _, one := range figures {
		said = append(said, figure(l, one, ""))
	}
	return strings.Join(said, " ")
}

// wholeKind names the input that moved a line where no one figure of it can be named.
func wholeKind(l answer.SinceLine) string {
	switch l.Cause {
	case answer.CausePrice:
		return "how far the " + l.Commodity.Name() + " price can move"
	case answer.CauseCounty:
		if len(figuresOf(l)) == 0 {
			return "what is known of the county yields"
		}
		return "the county yields"
	case answer.CauseRecord:
		return "the farm record"
	case answer.CauseLaw:
		return "the law"
	case answer.CauseProgram:
		return "another version of fencerow"
	}
	return "the settings"
}

// shortKinds are kinds of inputs in a list.
var shortKinds = map[answer.Cause]string{
	answer.CausePrice: "price", answer.CauseCounty: "county yield", answer.CauseRecord: "farm record", answer.CauseLaw: "law", answer.CauseProgram: "version", answer.CauseSettings: "settings",
}

// MovedTogether says how far each input by itself moves a line that several moved together:
// "On 0417 corn several inputs did it: price alone $245 to PLC, county yield $1,204 to
// ARC-CO."
func MovedTogether(l answer.SinceLine, on string) string {
	var each []string
	for _, one := range l.Alone {
		switch moved := one.Moved != nil && *one.Moved != 0; {
		case moved:
			each = append(each, shortKinds[one.By]+" alone "+MovedTo(one.Moved))
		case one.Lead != l.Before.Lead:
			each = append(each, shortKinds[one.By]+" alone to another lead")
		}
	}
	if len(each) == 0 {
		return fmt.Sprintf("On %s several inputs did it, none of them by itself.", on)
	}
	for i := range each[1:] {
		each[i+1] = strings.Replace(each[i+1], " alone ", " ", 1)
	}
	return fmt.Sprintf("On %s several inputs did it: %s.", on, strings.Join(each, ", "))
}

// MovedFigures are the figures that changed for a line that several inputs moved together,
// each in a sentence; on names the line where the figure is its own.
func MovedFigures(l answer.SinceLine, on string) (said []string) {
	for _, one := range figuresOf(l) {
		of := ""
		if one.By == answer.CauseRecord {
			of = " of " + on
		}
		said = append(said, figure(l, one, of))
	}
	return said
}

// figure is a figure that changed, in a sentence: "Corn price: $4.10 then, $4.35 now."
func figure(l answer.SinceLine, one answer.Changed, of string) string {
	return fmt.Sprintf("%s%s: %s.", Capital(strings.TrimPrefix(figureName(l, one), "the ")), of, thenNow(l, one))
}

// MovedTo says how far a margin on all base moved and toward which program: "$245 to PLC".
func MovedTo(d *answer.Dollars) string {
	if d == nil {
		return "unknown"
	}
	size := answer.Dollars(math.Abs(float64(*d)))
	if text := Whole(&size); text != "$0" {
		return text + " to " + Toward(*d)
	}
	return "under $1"
}

// followed are figures that follow another one of their kind, which is told in their stead.
var followed = map[string][]string{"benchmark_price": {"price"}, "effective_reference_price": {"price", "benchmark_price"}, "benchmark_yield": {"county_yield"}}

// figuresOf are the figures of a line worth telling.
func figuresOf(l answer.SinceLine) []answer.Changed {
	return slices.DeleteFunc(slices.Clone(l.Changed), func(one answer.Changed) bool {
		return l.Cause != answer.CauseJoint && one.By != l.Cause || slices.ContainsFunc(l.Changed, func(other answer.Changed) bool { return slices.Contains(followed[one.What], other.What) })
	})
}

// figureName names a figure or setting in a sentence.
func figureName(l answer.SinceLine, one answer.Changed) string {
	place := ""
	if one.County != "" {
		place = "the " + County(answer.BasePart{County: one.County, CountyName: one.CountyName})
		if one.Practice != "" {
			place = "the " + one.Practice + strings.TrimPrefix(place, "the")
		}
	}
	switch one.What {
	case "price", "benchmark_price", "effective_reference_price":
		return "the " + l.Commodity.Name() + " " + strings.ReplaceAll(one.What, "_", " ")
	case "county_yield":
		return place + " " + l.Commodity.Name() + " yield"
	case "benchmark_yield":
		return place + " " + l.Commodity.Name() + " benchmark yield"
	}
	if words := settingNames[one.What]; words != "" {
		return words
	}
	id, of, _ := strings.Cut(one.What, " ")
	name := "the law's " + strings.ReplaceAll(id, "_", " ")
	if of != "" {
		name += " of " + strings.ReplaceAll(of, "_", " ")
	}
	return name
}

// settingNames are figures of the record and settings in words.
var settingNames = map[string]string{
	"base_acres": "base acres", "payment_yield": "the PLC yield", "irrigated_base_acres": "irrigated base acres", "close_margin": "the toss-up margin",
	"seed": "the seed", "draws": "the number of outcomes", "model": "the model of the odds", "tail": "the kind of extremes", "version": "another version of fencerow",
}

// thenNow writes a figure as it was and as it is: "$4.10 then, $4.35 now".
func thenNow(l answer.SinceLine, one answer.Changed) string {
	then := figureText(one, one.Before)
	if one.What == "county_yield" || one.What == "benchmark_yield" {
		then += " " + l.Commodity.Unit().Mass + "s"
	}
	return then + " then, " + figureText(one, one.After) + " now"
}

// figureText writes a figure that changed; what is no number stays as it is.
func figureText(one answer.Changed, text string) string {
	x, err := strconv.ParseFloat(text, 64)
	switch {
	case text == "":
		return "none"
	case err != nil || one.By == answer.CauseLaw || one.By == answer.CauseProgram || one.What == "seed":
		return text
	case one.By == answer.CausePrice || one.What == "close_margin":
		return "$" + text
	case one.What == "draws":
		return Grouped(x, 0)
	case one.By == answer.CauseCounty:
		return yieldNumber(answer.Dollars(program.Round(x, 1)))
	}
	d := answer.Dollars(x)
	return Plain(&d)
}

// Toward names the program that a margin or its change favors: ARC-CO above 0, else PLC.
func Toward(d answer.Dollars) string {
	if d > 0 {
		return string(answer.LeadsARCCO)
	}
	return string(answer.LeadsPLC)
}
