package crop

// Unit says how a commodity is priced and weighed in every file and screen.
type Unit struct {
	Mass  string // "bushel" or "pound"
	Short string // "bu" or "lb"
}

var (
	bushel = Unit{Mass: "bushel", Short: "bu"}
	pound  = Unit{Mass: "pound", Short: "lb"}
)

// Unit returns the agency's unit of c: bushels for grains, soybeans and
// flaxseed, pounds for all others.
func (c Commodity) Unit() Unit {
	switch c {
	case Wheat, Oats, Barley, Corn, GrainSorghum, Soybeans, Flaxseed:
		return bushel
	}
	return pound
}

// Price returns the unit of a price: "USD/bu" or "USD/lb".
func (u Unit) Price() string { return "USD/" + u.Short }

// Yield returns the unit of a yield: "bu/acre" or "lb/acre".
func (u Unit) Yield() string { return u.Short + "/acre" }

// Pounds in one of each larger unit. A bushel of flaxseed weighs 56 pounds and
// one of grain sorghum too.
const (
	poundsPerHundredweight = 100
	poundsPerTon           = 2000
	flaxseedBushel         = 56
	sorghumBushel          = 56
	centsPerDollar         = 100
)

// PriceFactor returns what a price stated in unit from is multiplied by to
// become a price of c in its own unit. ok is false where the two do not fit.
func (c Commodity) PriceFactor(from string) (factor float64, ok bool) {
	perPound := map[string]float64{"USD/lb": 1, "USD/cwt": 1.0 / poundsPerHundredweight, "USD/ton": 1.0 / poundsPerTon, "cents/lb": 1.0 / centsPerDollar}
	switch {
	case from == c.Unit().Price():
		return 1, true
	case c.Unit() == bushel && from == "cents/bu":
		return 1.0 / centsPerDollar, true
	case c.Unit() == pound:
		factor, ok = perPound[from]
	case c == Flaxseed:
		factor, ok = perPound[from]
		factor *= flaxseedBushel
	case c == GrainSorghum:
		factor, ok = perPound[from]
		factor *= sorghumBushel
	}
	return factor, ok
}

// TradeUnit returns the unit in which the trade speaks of the price of c, and
// what a price in the unit of c is multiplied by to get there.
func (c Commodity) TradeUnit() (unit string, factor float64) {
	switch {
	case c == Peanuts:
		return "USD/ton", poundsPerTon
	case c == SeedCotton || c.Unit() == bushel:
		return c.Unit().Price(), 1
	}
	return "USD/cwt", poundsPerHundredweight
}
