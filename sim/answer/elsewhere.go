package answer

// StartPoints are where each program begins to pay and where it pays its most. ARC-CO's
// prices are at the mean county yields; its yields are at the mean price, as shares of
// the mean yields, all at once. nil: nowhere.
type StartPoints struct {
	PLCBelow        *Price  `json:"plc_pays_below"`
	PLCMost         *Price  `json:"plc_most_at"` // at this price and below
	ARCCOBelowPrice *Price  `json:"arc_co_pays_below_price"`
	ARCCOMostPrice  *Price  `json:"arc_co_most_at_price"`
	ARCCOBelowYield *Chance `json:"arc_co_pays_below_yield"`
	ARCCOMostYield  *Chance `json:"arc_co_most_at_yield"`
}

// PaymentAt is what each program pays, USD per base acre, at one price and one share of
// the mean county yields.
type PaymentAt struct {
	Price  Price   `json:"price"`
	Yields Chance  `json:"yields"` // part of the mean county yields
	PLC    Dollars `json:"PLC"`
	ARCCO  Dollars `json:"ARC-CO"`
}

// PaymentBy is what each program pays, USD per base acre, at one price; ARC-CO at each
// of CurveYields.
type PaymentBy struct {
	Price Price                     `json:"price"`
	PLC   Dollars                   `json:"PLC"`
	ARCCO [len(CurveYields)]Dollars `json:"ARC-CO"`
}

// CurveYields are the shares of the mean county yields in a PaymentBy.
var CurveYields = [...]float64{0.9, 1, 1.1}

// YieldLead is an interval of county yields and the program that pays more in it at the
// mean price.
type YieldLead struct {
	Below  *Chance `json:"below,omitempty"` // first percent of the mean yields at which it no longer leads; none in the last
	Leader Leader  `json:"ahead"`
}

// OtherParts are the shares of mean price and mean yields in the table of other prices
// and yields.
var OtherParts = [...]float64{0.8, 0.9, 1, 1.1, 1.2}
