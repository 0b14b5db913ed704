package crop

// Transparent names of quantities: they document a unit and cost no conversion.
type (
	Price   = float64 // USD per bushel or per pound, see Commodity.Unit
	Yield   = float64 // bushels or pounds per acre
	Acres   = float64 // acres
	Revenue = float64 // USD per acre
	Money   = float64 // USD
	Share   = float64 // a part of one, 0 to 1
)

// Noise is what binary arithmetic alone may add to figures of the size of shares, acres
// or rates: two that differ by less are the same.
const Noise = 1e-9

// CropYear is the calendar year in which a crop is normally harvested; the
// agency's program year has the same number.
type CropYear = int
