package farm

import (
	"fmt"
	"strconv"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// A price or yield that can only be right in another unit is refused, because
// every figure after it would be wrong by a factor of 50 or more. The bounds
// are judgements of this program, wide enough for the agency's own series
// (yields of program years 2014-2025, prices since 1990) and no wider than
// needed to tell one unit from another.

// unitSuspect begins the reason of a value that is plausible only in another unit.
const unitSuspect = "unit_suspect"

// A price is plausible from a fifth to six times the newest reference price.
const (
	leastOfReference = 0.2
	mostOfReference  = 6
)

// YieldKind says what a yield stands for, and so how low it can be.
type YieldKind int

// The kinds. A Usual yield is an average or a yield to be expected: payment
// yield, benchmark, plug. A Harvested one is of a single year, where a failed
// crop can bring next to nothing.
const (
	Usual YieldKind = iota
	Harvested
)

// yieldBounds are in the unit of the commodity per acre.
type yieldBounds struct{ usual, harvested, most crop.Yield }

var plausibleYields = map[crop.Commodity]yieldBounds{
	crop.Wheat:                 {usual: 1.5, harvested: 0, most: 200},
	crop.Oats:                  {usual: 5, harvested: 0, most: 300},
	crop.Barley:                {usual: 5, harvested: 0, most: 250},
	crop.Corn:                  {usual: 6, harvested: 0, most: 450},
	crop.GrainSorghum:          {usual: 5, harvested: 0, most: 300},
	crop.LongGrainRice:         {usual: 1000, harvested: 250, most: 18000},
	crop.MediumGrainRice:       {usual: 1000, harvested: 250, most: 18000},
	crop.TemperateJaponicaRice: {usual: 1000, harvested: 250, most: 18000},
	crop.Soybeans:              {usual: 3, harvested: 0, most: 150},
	crop.SunflowerSeed:         {usual: 150, harvested: 30, most: 6000},
	crop.Rapeseed:              {usual: 100, harvested: 30, most: 6000},
	crop.Canola:                {usual: 100, harvested: 3, most: 6000},
	crop.Safflower:             {usual: 100, harvested: 10, most: 6000},
	crop.Flaxseed:              {usual: 3, harvested: 0, most: 100},
	crop.MustardSeed:           {usual: 100, harvested: 20, most: 4000},
	crop.Crambe:                {usual: 100, harvested: 20, most: 4000},
	crop.SesameSeed:            {usual: 100, harvested: 20, most: 4000},
	crop.Peanuts:               {usual: 200, harvested: 100, most: 10000},
	crop.DryPeas:               {usual: 200, harvested: 30, most: 8000},
	crop.Lentils:               {usual: 200, harvested: 30, most: 6000},
	crop.SmallChickpeas:        {usual: 200, harvested: 50, most: 6000},
	crop.LargeChickpeas:        {usual: 200, harvested: 50, most: 6000},
	crop.SeedCotton:            {usual: 100, harvested: 0, most: 12000},
}

// poundsPerBushel are the standard weights. Source: Weights, Measures, and
// Conversion Factors for Agricultural Commodities and Their Products,
// Agricultural Handbook 697, USDA Economic Research Service, June 1992.
var poundsPerBushel = map[crop.Commodity]float64{
	crop.Wheat: 60, crop.Oats: 32, crop.Barley: 48, crop.Corn: 56, crop.GrainSorghum: 56, crop.Soybeans: 60, crop.Flaxseed: 56,
}

// reading is another unit in which a number may be meant.
type reading struct {
	unit   string
	factor float64 // to the unit of the commodity
}

// yieldReadings returns the other units in which a yield of c may be meant.
func yieldReadings(c crop.Commodity) []reading {
	if pounds, ok := poundsPerBushel[c]; ok {
		return []reading{{"lb/acre", 1 / pounds}, {"ton/acre", 2000 / pounds}, {"cwt/acre", 100 / pounds}}
	}
	if c == crop.Peanuts {
		return []reading{{"ton/acre", 2000}, {"cwt/acre", 100}}
	}
	return []reading{{"cwt/acre", 100}, {"ton/acre", 2000}}
}

// YieldBounds returns the least and the highest plausible yield of c in its
// unit per acre.
func YieldBounds(c crop.Commodity, kind YieldKind) (least, most crop.Yield) {
	bounds := plausibleYields[c]
	if kind == Harvested {
		return bounds.harvested, bounds.most
	}
	return bounds.usual, bounds.most
}

// CheckYield refuses a yield that is not plausible, and says in which other
// unit it would be. A yield of 0 is right where it was harvested, and nowhere
// else.
func CheckYield(what string, c crop.Commodity, kind YieldKind, yield crop.Yield) *Fault {
	least, most := YieldBounds(c, kind)
	switch {
	case kind == Harvested && yield == 0, least <= yield && yield <= most:
		return nil
	case yield < 0:
		return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(yield)), Hint: "a yield cannot be negative"}
	case yield == 0:
		return &Fault{Reason: what + " is 0", Hint: "leave it out where it is not known"}
	}
	return implausible(what, yield, c.Unit().Yield(), least, most, yieldReadings(c), func(string) string {
		return "write the yield in " + c.Unit().Yield()
	})
}

// priceUnits are those in which a price may be meant, the trade's first.
var priceUnits = []string{"USD/bu", "cents/bu", "USD/cwt", "USD/ton", "cents/lb", "USD/lb"}

// PriceUnits returns the units in which a market file may state the price of c.
func PriceUnits(c crop.Commodity) []string {
	var units []string
	for _, unit := range priceUnits {
		if _, ok := c.PriceFactor(unit); ok {
			units = append(units, unit)
		}
	}
	return units
}

// PriceBounds returns the least and the highest plausible price of c in its
// unit: multiples of the newest reference price. Newest means the last crop
// year the law covers.
func PriceBounds(c crop.Commodity) (least, most crop.Price) {
	reference, err := law.Find("reference_price", c, ProgramYears().Last)
	if err != nil {
		panic(err) // every commodity has one; the tests of this package hold it
	}
	factor, _ := c.PriceFactor(reference.Unit)
	return leastOfReference * reference.Number * factor, mostOfReference * reference.Number * factor
}

// CheckPrice refuses a price, given in the unit of c, that is not plausible,
// and says in which other unit it would be.
func CheckPrice(what string, c crop.Commodity, price crop.Price) *Fault {
	least, most := PriceBounds(c)
	switch {
	case least <= price && price <= most:
		return nil
	case price <= 0:
		return &Fault{Reason: fmt.Sprintf("%s is %s", what, show(price)), Hint: "a price is above 0"}
	}
	trade, _ := c.TradeUnit()
	readings := []reading{}
	for _, unit := range append([]string{trade}, PriceUnits(c)...) {
		if factor, ok := c.PriceFactor(unit); ok && unit != c.Unit().Price() {
			readings = append(readings, reading{unit, factor})
		}
	}
	return implausible(what, price, c.Unit().Price(), least, most, readings, func(other string) string {
		return fmt.Sprintf("write the price in %s, or state the unit in the market file: units: {%s: %s}", c.Unit().Price(), c, other)
	})
}

// implausible names the first reading that is plausible, or the bounds.
func implausible(what string, number float64, unit string, least, most float64, readings []reading, hint func(otherUnit string) string) *Fault {
	for _, other := range readings {
		converted := number * other.factor
		if least <= converted && converted <= most {
			return &Fault{
				Reason: fmt.Sprintf("%s: %s: %s %s is not plausible. It reads like %s %s, which is %s %s", unitSuspect, what, show(number), unit, show(number), other.unit, brief(converted), unit),
				Hint:   hint(other.unit),
			}
		}
	}
	return &Fault{
		Reason: fmt.Sprintf("%s is %s %s", what, show(number), unit),
		Hint:   fmt.Sprintf("from %s to %s %s is possible", brief(least), brief(most), unit),
	}
}

// brief writes a number with four digits that count.
func brief(number float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(number, 'g', 4, 64), 64)
	if err != nil {
		return show(number)
	}
	return show(rounded)
}
