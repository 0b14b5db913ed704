package insurance

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// caution stands wherever area insurance is shown.
const caution = "Not advice: a licensed insurance agent decides and quotes. Premiums are as typed."

// Options say how much is laid out.
type Options struct {
	Farm     string // its key; "": every farm
	Worked   bool   // with the steps of each layer
	Pictures bool   // with how often a program and a layer pay, in 100 squares
}

// Of lays out the area insurance of farms and crop years that have some; nothing where none
// has.
func Of(c answer.Comparison, o Options) (blocks []report.Block) {
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			if f.Insurance == nil || o.Farm != "" && f.Farm != o.Farm {
				continue
			}
			blocks = append(blocks, report.Heading{Level: 3, Text: fmt.Sprintf("Area insurance beside the programs: farm %s, %d", wording.Farm(f.Farm, y.Farms), y.CropYear)})
			blocks = append(blocks, ofFarm(*f.Insurance, o)...)
		}
	}
	if blocks != nil {
		blocks = append(blocks, report.Small(caution+" Dollars are before share, payment limit and sequestration, and count the whole crop. Poor and worst cases are of these payments alone, without the crop's own revenue."))
	}
	return blocks
}

// ofFarm lays out one farm.
func ofFarm(i answer.Insurance, o Options) (blocks []report.Block) {
	blocks = append(blocks, text(closing(i)))
	for _, c := range i.Crops {
		blocks = append(blocks, ofCrop(c, o)...)
		if o.Pictures {
			blocks = append(blocks, pictures(c)...)
		}
		if o.Worked {
			blocks = append(blocks, steps(c)...)
		}
	}
	if len(i.WholeFarm) > 0 {
		rows := grid(fmt.Sprintf("Whole farm, dollars: %s insured acres, %s base acres.", wording.Plain(&i.InsuredAcres), wording.Plain(&i.BaseAcres)), "whole farm in")
		for _, row := range i.WholeFarm {
			if row.PremiumMissing {
				continue
			}
			rows.Rows = append(rows.Rows, cells(choiceText(row.Choice)+with(row.Layers), row))
		}
		blocks = append(blocks, rows)
	}
	if slices.ContainsFunc(i.Crops, func(c answer.InsuredCrop) bool { return c.AreaYieldFrom == wording.BeforeHarvest }) {
		blocks = append(blocks, report.Small("Before harvest these odds say more than such layers paid in 2013 to 2024, years without a great drought (docs/validation.md)."))
	}
	if i.YieldsOut != "" {
		blocks = append(blocks, report.Small(fmt.Sprintf("Layers are settled after area yields come out, about %s (not confirmed); PLC and ARC-CO are paid later.", wording.Date(i.YieldsOut))))
	}
	if len(i.Unconfirmed) > 0 {
		blocks = append(blocks, report.Small("Not confirmed in the agency's own text: figures from "+wording.Joined(i.Unconfirmed)+"."))
	}
	return blocks
}

// text is a paragraph, or lines where there is none.
func text(said string) report.Block {
	if said == "" {
		return report.Lines{}
	}
	return report.Text(said)
}

// closing says which insurance is given and which can still be bought, the first to close
// first.
func closing(i answer.Insurance) string {
	var given, open, unknown []string
	for _, c := range i.Crops {
		name := c.Sales.LastDay + "|" + c.Commodity.Name()
		if c.Sales.LastDay != "" {
			name += " (" + wording.Date(c.Sales.LastDay) + sure(c.Sales) + ")"
		}
		switch c.Sales.Standing {
		case "given":
			given = append(given, name)
		case "open":
			open = append(open, name)
		default:
			unknown = append(unknown, name)
		}
	}
	for _, names := range [][]string{given, open, unknown} {
		slices.Sort(names) // by day
		for i, name := range names {
			_, names[i], _ = strings.Cut(name, "|")
		}
	}
	var said []string
	if len(given) > 0 {
		said = append(said, "Sales are closed for "+wording.Joined(given)+": that insurance is given, and counted as it stands.")
	}
	if len(open) > 0 {
		said = append(said, "Still open, first to close first: "+wording.Joined(open)+".")
	}
	if len(unknown) > 0 {
		said = append(said, "The last day to buy is not known here for "+wording.Joined(unknown)+": ask your agent.")
	}
	return strings.Join(said, " ")
}

// sure says of a last day what it holds for and that it is not confirmed.
func sure(s answer.Sales) string {
	said := ""
	if s.Of != "" {
		said = " for " + s.Of
	}
	if s.Status.Marked() && s.Source != "typed" {
		said += ", not confirmed"
	}
	return said
}

// ofCrop lays out one insured crop. Where pictures are wanted, what they and the table of
// layers show is left out.
func ofCrop(c answer.InsuredCrop, o Options) (blocks []report.Block) {
	blocks = append(blocks, text(wording.Sentences(insuredText(c), priceText(c), yieldText(c))))
	if c.Missing != "" {
		return append(blocks, report.Text("There are no figures: "+c.Missing+" is missing."))
	}
	blocks = append(blocks, layerGrid(c))
	for _, l := range c.Layers {
		switch {
		case l.Missing != "":
			blocks = append(blocks, report.Text(fmt.Sprintf("%s is left out: %s.", l.Layer, l.Missing)))
		case l.FromTotal && l.Premium != nil:
			blocks = append(blocks, report.Text(fmt.Sprintf("The premium of %s is what is left of the one typed after a subsidy of %s (not confirmed).", l.Layer, wording.Percent(l.Subsidy))))
		}
	}
	rows := grid("Each program alone and with each layer, dollars.", "program")
	for _, row := range c.Together {
		if !row.PremiumMissing && !(o.Pictures && row.Program == "") {
			rows.Rows = append(rows.Rows, cells(programText(row), row))
		}
	}
	blocks = append(blocks, rows)
	var said report.Lines
	for _, of := range c.Overlap {
		if !o.Pictures || of.Layer != c.Overlap[0].Layer {
			said = append(said, overlap(of))
		}
	}
	said = append(said, c.Apart...)
	if without := withoutPremium(c); len(without) > 0 {
		said = append(said, "Not in the table: "+wording.Joined(without)+". Type the premium an acre (premium): it is never guessed.")
	}
	if len(said) > 0 {
		blocks = append(blocks, said)
	}
	return blocks
}

// steps lays out how each layer of a crop is worked out, an acre at the average area yield.
func steps(c answer.InsuredCrop) (blocks []report.Block) {
	for _, l := range c.Layers {
		if len(l.Steps) == 0 {
			continue
		}
		t := report.Table{Title: fmt.Sprintf("%s on %s, one acre at the average area yield", l.Layer, c.Commodity.Name()), Columns: []string{"step", "figure", "unit"}}
		for _, s := range l.Steps {
			decimals := 2
			if s.Unit == "1" {
				decimals = 4
			}
			t.Rows = append(t.Rows, []string{s.Words, wording.Grouped(float64(s.Value), decimals), s.Unit})
		}
		blocks = append(blocks, t)
	}
	return blocks
}

// pictures show how often each program and the first layer of a crop pay in the same outcome,
// side by side.
func pictures(c answer.InsuredCrop) (blocks []report.Block) {
	var all []report.Block
	for _, o := range c.Overlap {
		if o.Layer != c.Overlap[0].Layer {
			continue
		}
		squares := report.SquaresOf([]string{"both pay", string(o.Program) + " alone", string(o.Layer) + " alone", "neither pays"}, &o.Both, &o.OnlyProgram, &o.OnlyLayer, &o.Neither)
		all = append(all, report.Picture{Question: fmt.Sprintf("How often do %s and %s pay?", o.Program, o.Layer), Says: overlap(o), Drawing: squares})
	}
	switch len(all) {
	case 0:
		return nil
	case 1:
		return all
	}
	return []report.Block{report.Beside{Left: all[:1], Right: all[1:]}}
}

// overlap says how often a program and a layer pay in the same outcome.
func overlap(o answer.Overlap) string {
	n := wording.Chances(&o.Both, &o.OnlyProgram, &o.OnlyLayer, &o.Neither)
	return fmt.Sprintf("In %s of 100 outcomes %s and %s both pay. %s alone pays in %s, %s alone in %s, neither in %s.", n[0], o.Program, o.Layer, o.Program, n[1], o.Layer, n[2], n[3])
}

// withoutPremium names the layers whose premium is not typed.
func withoutPremium(c answer.InsuredCrop) (names []string) {
	for _, l := range c.Layers {
		if l.Premium == nil && l.Missing == "" {
			names = append(names, string(l.Layer))
		}
	}
	return names
}

func insuredText(c answer.InsuredCrop) string {
	on := fmt.Sprintf("%s: %s insured acres, plan %s", wording.Capital(c.Commodity.Name()), wording.Plain(&c.InsuredAcres), c.Plan)
	if c.Level > 0 {
		on += fmt.Sprintf(" at %s, approved yield %s", wording.Percent(c.Level), wording.Plain(&c.ApprovedYield))
	}
	if c.BaseAcres > 0 {
		return on + fmt.Sprintf("; %s base acres.", wording.Plain(&c.BaseAcres))
	}
	return on + "; no base."
}

func priceText(c answer.InsuredCrop) string {
	said := "Projected price " + wording.PriceText(&c.ProjectedPrice)
	switch {
	case c.HarvestPrice == nil:
		return said + "; the harvest price does not enter."
	case c.HarvestPriceKnown:
		return said + ", harvest price " + wording.PriceText(c.HarvestPrice) + "."
	}
	said += fmt.Sprintf("; the harvest price is open, volatility factor %s.", program.Text(float64(*c.Volatility), 2))
	if c.HarvestPriceOut {
		said += " It may be published by now: type it (harvest_price)."
	}
	return said
}

func yieldText(c answer.InsuredCrop) string {
	if c.AreaYield == nil {
		return fmt.Sprintf("Expected area yield %s.", wording.Plain(&c.ExpectedYield))
	}
	final := fmt.Sprintf("Expected area yield %s, final area yield %s on average%s", wording.Plain(&c.ExpectedYield), wording.Plain(c.AreaYield), wording.Mark(c.AreaYieldStatus))
	if c.AreaYieldRatio == 1 {
		return final + ", taken as FSA's county yield."
	}
	return final + fmt.Sprintf(", taken as %s of FSA's county yield.", wording.Percent(c.AreaYieldRatio))
}

// layerGrid has what each layer covers, pays and costs.
func layerGrid(c answer.InsuredCrop) report.Grid {
	g := report.Grid{Title: []string{"Layers, dollars an insured acre; pays: of 100 outcomes."}, Columns: []report.Column{
		{Head: "layer", Left: true}, {Head: "covers,\npercent"}, {Head: "most"}, {Head: "pays below\nyield of"}, {Head: "pays"}, {Head: "average"}, {Head: "premium\nand fee"}, {Head: "net"}}}
	for _, l := range c.Layers {
		if l.Missing != "" || l.Average == nil {
			continue
		}
		cost, net := none, none
		if l.Premium != nil {
			all := *l.Premium + l.Fee
			cost, net = wording.Money(&all), wording.Money(l.Net)
		}
		g.Rows = append(g.Rows, []string{string(l.Layer), program.Text(100*float64(l.Trigger), 0) + " to " + program.Text(100*float64(l.LowerEnd), 0), wording.Money(l.Protection), wording.Plain(l.PaysBelow), wording.InHundred(*l.ChanceOfPayment), wording.Money(l.Average), cost, net})
	}
	return g
}

// none stands where there is no figure.
const none = "-"

// grid is a table of rows of InsuranceRow.
func grid(title, first string) report.Grid {
	return report.Grid{Title: []string{title + " Net of premium and fee."}, Columns: []report.Column{
		{Head: first, Left: true, Wraps: true}, {Head: "average"}, {Head: "poor case\n(1 in 10\nis lower)"}, {Head: "average of\nworst 10\nof 100"}, {Over: "average an acre", Head: "insured"}, {Over: "average an acre", Head: "base"}}}
}

// wholeDollars is how many figures of a row are in whole dollars: those that are in total.
const wholeDollars = 3

func cells(name string, row answer.InsuranceRow) []string {
	all := []string{name}
	for i, d := range []*answer.Dollars{row.Average, row.Poor, row.Worst, row.PerInsuredAcre, row.PerBaseAcre} {
		switch {
		case d == nil:
			all = append(all, none)
		case i < wholeDollars:
			all = append(all, wording.Whole(d))
		default: // an acre
			all = append(all, wording.Money(d))
		}
	}
	return all
}

// programText names a row of a crop.
func programText(row answer.InsuranceRow) string {
	switch {
	case row.Program == "":
		return layersText(row.Layers) + " alone"
	case len(row.Layers) == 0:
		return string(row.Program) + " alone"
	}
	return string(row.Program) + with(row.Layers)
}

func with(layers []farm.Program) string {
	if len(layers) == 0 {
		return ""
	}
	return " with " + layersText(layers)
}

func layersText(layers []farm.Program) string {
	var names []string
	for _, l := range layers {
		names = append(names, string(l))
	}
	return strings.Join(names, " + ")
}

// choiceText names a choice of the whole farm, in one word where all crops have one program.
func choiceText(c answer.Choice) string {
	programs := slices.Collect(maps.Values(c))
	slices.Sort(programs)
	switch all := slices.Compact(programs); len(all) {
	case 0:
		return "no base"
	case 1:
		return string(all[0])
	}
	return wording.Programs(c)
}
