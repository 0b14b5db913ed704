package program

import "fencerow/program/crop"

// STAXBand returns the band of the Stacked Income Protection Plan for upland cotton: the
// coverage range chosen, cut where it would reach below floor or the coverage level of a
// companion policy (0 without one). A range under least is void: ok is false.
//
// Source: 23-STAX-0021, sec. 1 and 5(a), quoted by others; 7 U.S.C. 1508b(b).
func STAXBand(trigger, chosen, companion, floor, least crop.Share) (b Band, ok bool) {
	b = bandOf(trigger, max(floor, companion, trigger-chosen))
	return b, atMost(least, b.Range)
}

// STAXValue returns the expected area revenue of the insured acres, USD: STAX pays on the
// area's yield (units/acre), not on the farm's. price is InsuredPrice.
//
// Source: 23-STAX-0021, sec. 5(a), quoted by others. Example: testdata/published/rma-stax.json.
func STAXValue(expected crop.Yield, price crop.Price, acres crop.Acres, share crop.Share) crop.Money {
	return expected * price * acres * share
}
