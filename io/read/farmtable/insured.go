package farmtable

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"

	"fencerow/io/read/spelling"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// layerColumns are the columns of one layer; absent: the layer has none such.
type layerColumns struct {
	program                                       farm.Program
	trigger, reach, coverage, factor, cost, total column
}

var layerColumnsOf = []layerColumns{
	{farm.SCO, scoTriggerColumn, absent, scoCoverageColumn, absent, scoPremiumColumn, scoTotalColumn},
	{farm.ECO, ecoTriggerColumn, absent, ecoCoverageColumn, absent, ecoPremiumColumn, ecoTotalColumn},
	{farm.STAX, staxTriggerColumn, staxRangeColumn, absent, staxFactorColumn, staxPremiumColumn, staxTotalColumn},
}

// ofArea are the columns that say what holds for a county and crop year: they may be filled
// also where nothing is insured.
var ofArea = []column{practiceColumn, projectedPriceColumn, harvestPriceColumn, volatilityColumn, expectedYieldColumn, finalYieldColumn, yieldRatioColumn, closesColumn}

// given reports whether a cell says something.
func (r *rowReader) given(c column) bool { return r.cells[c] != "" && !isDash(r.cells[c]) }

// readInsured reads the area insurance of a row, where it is asked for. Nothing is guessed:
// a row has layers, or says nothing of its own that is insured.
func (r *rowReader) readInsured() {
	if !r.profile.insured {
		return
	}
	if !r.given(layersColumn) {
		r.refuseWithoutLayers()
		return
	}
	i := &farm.Insurance{CropYear: r.row.CropYear, Commodity: r.row.Commodity, Share: 1}
	faults := len(r.refused)
	if i.CropYear == 0 && !r.given(cropYearColumn) && !r.spoiled[cropYearColumn] {
		r.refuse(layersColumn, "insured_layers is "+r.cells[layersColumn]+", and the row has no crop_year", "write the crop year that is insured, such as 2027, into a column crop_year")
	}
	i.Plan = word(r, planColumn, spelling.Plan, "write YP, RP or RP-HPE")
	i.Practice = word(r, practiceColumn, practiceOf, "write irrigated, nonirrigated or all")
	i.Closes = r.day(closesColumn)
	takeShare(r, levelColumn, &i.Level)
	takeShare(r, insuredShareColumn, &i.Share)
	r.readInsuredFigures(i)
	for _, of := range layerColumnsOf {
		r.readLayer(of, i)
	}
	if len(r.refused) == faults {
		r.needInsured(i)
	}
	if len(r.refused) == faults {
		r.row.Insured = i
	}
}

// refuseWithoutLayers refuses a row that says what is insured, and no layer.
func (r *rowReader) refuseWithoutLayers() {
	for c := layersColumn + 1; c < columnCount; c++ {
		if _, constant := r.profile.constants[c]; !constant && r.given(c) && !slices.Contains(ofArea, c) {
			r.refuse(c, fmt.Sprintf("%s is %s, and insured_layers is blank", columns[c].name, r.cells[c]), "write the layers that are insured (SCO, ECO or STAX) into insured_layers, or leave both blank")
			return
		}
	}
}

// readInsuredFigures reads acres, yields, prices and factors.
func (r *rowReader) readInsuredFigures(i *farm.Insurance) {
	yield := func(c column, kind farm.YieldKind) *crop.Yield {
		y := r.number(c)
		if i.Commodity == "" || y == nil || !r.check(c, farm.CheckYield(columns[c].name+" of "+i.Commodity.Name(), i.Commodity, kind, *y)) {
			return nil
		}
		return y
	}
	price := func(c column) *crop.Price {
		p := r.number(c)
		if i.Commodity == "" || p == nil || !r.check(c, farm.CheckPrice(columns[c].name+" of "+i.Commodity.Name(), i.Commodity, *p)) {
			return nil
		}
		return p
	}
	take(&i.ApprovedYield, yield(approvedYieldColumn, farm.Usual))
	take(&i.ExpectedYield, yield(expectedYieldColumn, farm.Usual))
	i.FinalYield = yield(finalYieldColumn, farm.Harvested)
	take(&i.Projected, price(projectedPriceColumn))
	i.Harvest = price(harvestPriceColumn)
	if acres := r.factor(insuredAcresColumn, math.MaxFloat64, "write the planted acres that are insured"); acres != nil && r.check(insuredAcresColumn, farm.CheckAcres("insured_acres", *acres)) {
		i.Acres = *acres
	}
	i.Volatility = r.factor(volatilityColumn, farm.MostVolatility, "write RMA's factor as 0.18")
	take(&i.YieldRatio, r.factor(yieldRatioColumn, farm.MostFactor, factorHint))
}

// factorHint says how a factor is written.
const factorHint = "write a number above 0, at most 3"

// take puts a number that is given in its place.
func take(into, number *float64) {
	if number != nil {
		*into = *number
	}
}

// takeShare puts a share that is given in its place.
func takeShare(r *rowReader, c column, into *crop.Share) { take(into, r.share(c)) }

// factor reads a number above 0 and at most most.
func (r *rowReader) factor(c column, most float64, hint string) *float64 {
	number := r.number(c)
	if number == nil || !r.check(c, farm.CheckFactor(columns[c].name, *number, most, hint)) {
		return nil
	}
	return number
}

// day reads a day.
func (r *rowReader) day(c column) string {
	if !r.given(c) {
		return ""
	}
	day, err := time.Parse(time.DateOnly, r.cells[c])
	if err != nil {
		r.refuse(c, fmt.Sprintf("%s is %q", columns[c].name, r.cells[c]), "write the day as 2027-03-15")
		return ""
	}
	return day.Format(time.DateOnly)
}

// practiceOf is the practice that a word stands for.
func practiceOf(text string) (farm.Practice, bool) {
	for _, p := range []farm.Practice{farm.AllPractices, farm.Irrigated, farm.Nonirrigated} {
		if spelling.Fold(text) == spelling.Fold(string(p)) {
			return p, true
		}
	}
	return "", false
}

// readLayer reads one layer, where insured_layers names it, and refuses figures of one that it
// does not name.
func (r *rowReader) readLayer(of layerColumns, i *farm.Insurance) {
	named := strings.FieldsFunc(strings.ToUpper(r.cells[layersColumn]), func(c rune) bool { return strings.ContainsRune(" ,;+/&", c) })
	if of.program == layerColumnsOf[0].program { // once a row
		for n, name := range named {
			if !slices.ContainsFunc(layerColumnsOf, func(of layerColumns) bool { return string(of.program) == name }) || slices.Contains(named[:n], name) {
				r.refuse(layersColumn, fmt.Sprintf("insured_layers is %q", r.cells[layersColumn]), "write SCO, ECO or STAX, each once, with blanks between")
				return
			}
		}
	}
	has := slices.Contains(named, string(of.program))
	for _, c := range []column{of.trigger, of.reach, of.coverage, of.factor, of.cost, of.total} {
		if _, constant := r.profile.constants[max(c, 0)]; !has && c != absent && !constant && r.given(c) {
			r.refuse(c, fmt.Sprintf("%s is %s, and insured_layers has no %s", columns[c].name, r.cells[c], of.program), fmt.Sprintf("add %s to insured_layers, or leave this blank", of.program))
		}
	}
	if !has {
		return
	}
	l := farm.Layer{Program: of.program, Premium: r.premium(of.cost), Total: r.premium(of.total)}
	takeShare(r, of.trigger, &l.Trigger)
	if of.reach != absent {
		takeShare(r, of.reach, &l.Range)
	}
	if of.coverage != absent {
		takeShare(r, of.coverage, &l.Percentage)
	}
	if of.factor != absent {
		take(&l.Percentage, r.factor(of.factor, farm.MostFactor, factorHint))
	}
	if l.Premium != nil && l.Total != nil {
		r.refuse(of.total, fmt.Sprintf("%s and %s are both given", columns[of.cost].name, columns[of.total].name), "give what you pay an acre, or what it is before subsidy")
	}
	i.Layers = append(i.Layers, l)
}

// premium reads dollars per insured acre.
func (r *rowReader) premium(c column) *crop.Money {
	amount := r.number(c)
	if amount != nil && *amount < 0 {
		r.refuse(c, fmt.Sprintf("%s is %s", columns[c].name, r.cells[c]), "a premium cannot be negative: write dollars per insured acre")
		return nil
	}
	return amount
}

// needInsured refuses insurance that lacks what its layers stand on.
func (r *rowReader) needInsured(i *farm.Insurance) {
	need := []column{planColumn, insuredAcresColumn, projectedPriceColumn, expectedYieldColumn}
	if slices.ContainsFunc(i.Layers, func(l farm.Layer) bool { return l.Program != farm.STAX }) {
		need = append(need, levelColumn, approvedYieldColumn)
	}
	for _, c := range need {
		if !r.given(c) && !r.spoiled[c] {
			r.refuse(c, fmt.Sprintf("%s is blank, and insured_layers is %s", columns[c].name, r.cells[layersColumn]), "copy the "+columns[c].meaning+" from the schedule of insurance or RMA's pages")
		}
	}
	if stax := slices.ContainsFunc(i.Layers, func(l farm.Layer) bool { return l.Program == farm.STAX }); stax && i.Plan == farm.YieldProtection {
		r.refuse(planColumn, "insured_plan is YP, and insured_layers has STAX", "STAX has RP or RP-HPE")
	}
}

// takeInsured takes what a row says of area insurance: one entry for a crop, crop year and
// practice, written alike in every row, or once.
func (f *gatheredFarm) takeInsured(row Row) {
	if row.Insured == nil {
		return
	}
	now := *row.Insured
	for n, earlier := range f.farm.Insurance {
		if earlier.CropYear != now.CropYear || earlier.Commodity != now.Commodity || earlier.Practice != now.Practice {
			continue
		}
		if !reflect.DeepEqual(earlier, now) {
			reason := fmt.Sprintf("insurance of %s on farm %s for %d is not as on line %d", row.Commodity.Name(), row.Farm, row.CropYear, f.insured[n])
			f.refused = append(f.refused, Refusal{row.Line, columns[layersColumn].name, "", reason, "write its columns alike in every row of the crop, or in one row alone"})
			f.broken[row.FarmKey()] = true
		}
		return
	}
	f.farm.Insurance, f.insured = append(f.farm.Insurance, now), append(f.insured, row.Line)
}

// InsuranceBlank returns a mistake where area insurance is asked for and no row has any. It is
// known once Next has returned io.EOF.
func (r *Reader) InsuranceBlank() farm.Mistakes {
	const hint = "name the layers that are insured (SCO, ECO, STAX) in insured_layers, or do not ask for insurance"
	switch {
	case !r.profile.insured || r.filled[layersColumn]:
		return nil
	case r.place[layersColumn] == absent:
		return farm.Mistakes{{File: r.path, Line: r.headingLine, Value: columns[layersColumn].name, Reason: "no column is headed insured_layers, and insurance is asked for", Hint: hint}}
	}
	return r.blankThroughout(hint, layersColumn)
}
