package crop

// Prices that USDA projects of what is no covered commodity itself, and that a
// covered one follows. They stand in a market under these keys, in USD/lb, and in
// no list of commodities.
const (
	UplandCottonLint        Commodity = "upland_cotton_lint"
	MediumAndShortGrainRice Commodity = "medium_and_short_grain_rice" // with temperate japonica
)

// Series returns the prices that are followed and not covered.
func Series() []Commodity { return []Commodity{UplandCottonLint, MediumAndShortGrainRice} }
