package record

import (
	"fmt"
	"strings"

	"fencerow/program/farm"
)

// finish checks what needs the whole record.
func (r *reader) finish() {
	r.dropPending()
	r.record.resolve()
	c := checker{r.record}
	c.totals()
	c.tracts()
	c.yields()
	c.elections()
	c.cropland()
	c.eligibility()
	c.counties()
}

// checker holds the sums of one print against each other.
type checker struct{ *Record }

func (c checker) warn(at Place, format string, values ...any) {
	c.Warnings = append(c.Warnings, Note{at, fmt.Sprintf(format, values...)})
}

func (c checker) ask(at Place, format string, values ...any) {
	c.Asked = append(c.Asked, Note{at, fmt.Sprintf(format, values...)})
}

// differ reports whether a sum of so many rounded figures is not the printed one.
func (c checker) differ(sum, printed float64, rows int) bool {
	unit := 0.01
	if c.Layout == Older {
		unit = 0.1
	}
	const noise = 1e-9
	return max(sum-printed, printed-sum) > unit/2*float64(rows+1)+noise
}

// sum adds the figures of a table's rows.
func sum(crops []*Crop, of func(*Crop) Figure) (total float64) {
	for _, c := range crops {
		total += of(c).Number
	}
	return total
}

func baseOf(c *Crop) Figure      { return c.Base }
func reductionOf(c *Crop) Figure { return c.Reduction }

// totals: the rows of each table add up to its last.
func (c checker) totals() {
	c.total("the farm", c.Crops, c.Record.Total)
	for _, t := range c.Parts {
		c.total("tract "+t.Number.Text, t.Crops, t.Total)
	}
}

func (c checker) total(what string, crops []*Crop, total Total) {
	for _, k := range []struct {
		name    string
		of      func(*Crop) Figure
		printed Figure
	}{{"base acres", baseOf, total.Base}, {"CCC-505 reduction", reductionOf, total.Reduction}} {
		if sum := sum(crops, k.of); k.printed.Known && c.differ(sum, k.printed.Number, len(crops)) {
			c.warn(k.printed.Place, "%s of %s add up to %s, and the print has %s as their total", k.name, what, show(sum), show(k.printed.Number))
		}
	}
}

// key is what makes rows of two tables the same crop.
func (c *Crop) key() string {
	if c.Commodity != "" {
		return string(c.Commodity)
	}
	return onlyLetters(c.Name)
}

// ofTracts returns the rows of all tracts that are of a crop.
func (r *Record) ofTracts(key string) (rows []*Crop) {
	for _, t := range r.Parts {
		for _, c := range t.Crops {
			if c.key() == key {
				rows = append(rows, c)
			}
		}
	}
	return rows
}

// hasTractCrops reports whether any tract has a table of base acres.
func (r *Record) hasTractCrops() bool {
	for _, t := range r.Parts {
		if t.HasCrops {
			return true
		}
	}
	return false
}

// tracts: the farm's figures are those of its tracts together.
func (c checker) tracts() {
	if n := c.Tracts; n.Known && int(n.Number) != len(c.Parts) {
		c.warn(n.Place, "the print counts %s tracts, and %d are in the text", show(n.Number), len(c.Parts))
	}
	if c.hasTractCrops() {
		for _, one := range c.Crops {
			c.overTracts(one)
		}
	}
	c.landOverTracts()
}

func (c checker) overTracts(one *Crop) {
	rows := c.ofTracts(one.key())
	for _, k := range []struct {
		name string
		of   func(*Crop) Figure
	}{{"base acres", baseOf}, {"CCC-505 reduction", reductionOf}} {
		if farm, sum := k.of(one), sum(rows, k.of); farm.Known && c.differ(sum, farm.Number, len(rows)) {
			c.warn(farm.Place, "%s of %s are %s on the farm, and %s on its tracts together", k.name, one.Name, show(farm.Number), show(sum))
		}
	}
}

func (c checker) landOverTracts() {
	for _, f := range c.Land {
		sum, all := 0.0, len(c.Parts) > 0
		for _, t := range c.Parts {
			part := land(t.Land, f.Name)
			sum, all = sum+part.Number, all && part.Known
		}
		if all && c.differ(sum, f.Number, len(c.Parts)) {
			c.warn(f.Place, "%s is %s on the farm, and %s on its tracts together", strings.ReplaceAll(f.Name, "_", " "), show(f.Number), show(sum))
		}
	}
}

// mostYieldOff is how far the farm's yield may be off the mean of its tracts, which it
// is, rounded.
const mostYieldOff = 1

// yields: the farm's yield is that of its tracts, weighted by base.
func (c checker) yields() {
	for _, one := range c.Crops {
		acres, weighted := 0.0, 0.0
		for _, t := range c.ofTracts(one.key()) {
			if !t.Yield.Known || !t.Base.Known {
				acres = 0
				break
			}
			acres, weighted = acres+t.Base.Number, weighted+t.Base.Number*t.Yield.Number
		}
		if acres == 0 || !one.Yield.Known {
			continue
		}
		if mean := weighted / acres; max(mean-one.Yield.Number, one.Yield.Number-mean) > mostYieldOff {
			c.warn(one.Yield.Place, "the PLC yield of %s is %s on the farm, and %s on its tracts on average", one.Name, show(one.Yield.Number), show(mean))
		}
	}
}

// elections: each crop with base stands in one list, and no other crop in any. A farm in
// ARC-IC has nothing in the other lists.
func (c checker) elections() {
	lists := map[string][]Election{}
	individual, others := []Election{}, []Election{}
	for _, e := range c.Elections {
		lists[string(e.Commodity)] = append(lists[string(e.Commodity)], e)
		if e.Program == farm.ARCIC {
			individual = append(individual, e)
		} else {
			others = append(others, e)
		}
	}
	if len(individual) > 0 && len(others) > 0 {
		c.warn(individual[0].Place, "%d crops stand under ARC-IC and %d under other elections: ARC-IC holds for a whole farm", len(individual), len(others))
	}
	for _, one := range c.Crops {
		if one.Commodity == "" || one.Base.Number == 0 {
			continue
		}
		if n := len(lists[string(one.Commodity)]); n != 1 && len(c.Elections) > 0 {
			c.warn(one.Place, "%s has %s base acres and stands in %d lists of elections", one.Name, show(one.Base.Number), n)
		}
		delete(lists, string(one.Commodity))
	}
	for _, e := range c.Elections {
		if len(c.Crops) > 0 && e.Commodity != "" && len(lists[string(e.Commodity)]) > 0 {
			c.warn(e.Place, "%s stands under %s and has 0 base acres on the farm", e.Code, e.Program)
		}
	}
}

// cropland: base and CRP land are not more than cropland and double-cropped acres.
func (c checker) cropland() {
	c.fits("the farm", c.Crops, c.Land)
	for _, t := range c.Parts {
		c.fits("tract "+t.Number.Text, t.Crops, t.Land)
	}
}

func (c checker) fits(what string, crops []*Crop, acres []LandFigure) {
	cropland := land(acres, "cropland")
	if !cropland.Known {
		return
	}
	used := sum(crops, baseOf) + land(acres, "crp").Number
	room := cropland.Number + land(acres, "double_cropped").Number
	if used > room && c.differ(used, room, len(crops)) {
		c.warn(cropland.Place, "base and CRP acres of %s are %s, and cropland with double-cropped acres is %s", what, show(used), show(room))
	}
}

// The words of the print on farms that were grass, idle or fallow in 2009 to 2017, and
// the crop year from which it has them.
const (
	eligible, ineligible = "eligible", "ineligible"
	firstEligibility     = 2019
)

// eligibility: a farm that is not eligible is paid nothing; its base is kept.
func (c checker) eligibility() {
	switch at := c.Eligibility.Place; strings.ToLower(c.Eligibility.Text) {
	case eligible:
	case ineligible:
		c.Idle = true
		c.warn(at, "the print has %q for G/I/F eligibility: base stays, but nothing is paid on it for 2019 to 2031", c.Eligibility.Text)
	case "":
		if c.CropYear.Number >= firstEligibility {
			c.IdleOpen = true
			c.ask(c.Farm.Place, "the print has no G/I/F eligibility: was all cropland grass, idle or fallow in 2009 to 2017?")
		}
	default:
		c.IdleOpen = true
		c.ask(at, "G/I/F eligibility is %q: was all cropland grass, idle or fallow in 2009 to 2017?", c.Eligibility.Text)
	}
}

// counties: base in more than one county is listed by county.
func (c checker) counties() {
	var order []string
	acres, at := map[string]float64{}, Place{}
	for _, t := range c.Parts {
		if t.County.Text == "" || !t.HasCrops {
			continue
		}
		county := t.County.Text
		if _, known := acres[county]; !known {
			order, at = append(order, county), t.County.Place
		}
		acres[county] += sum(t.Crops, baseOf)
	}
	if len(order) < 2 {
		return
	}
	var parts []string
	for _, county := range order {
		parts = append(parts, fmt.Sprintf("%s acres in %s", show(acres[county]), county))
	}
	c.warn(at, "base lies in %d counties: %s", len(order), strings.Join(parts, ", "))
}
