package farm

import "fencerow/program/crop"

// Base is the base acres of one commodity on one tract in one county.
type Base struct {
	Commodity      crop.Commodity
	BaseAcres      crop.Acres
	PaymentYield   *crop.Yield // PLC payment yield; nil: not known
	Tract          string
	County         string      // where the land lies; "" as the farm's
	IrrigatedShare *crop.Share // historical irrigated percentage as a share; nil: not known
	CRPReduction   crop.Acres
	Shares         Shares // nil: as the farm's
}

// PhysicalCounty returns the county in which the base lies.
func (b Base) PhysicalCounty(f Farm) string {
	if b.County != "" {
		return b.County
	}
	return f.County
}

// What stands for a commodity in a planting of crops that are not covered.
const (
	FruitVegetables = "fruit_vegetables" // fruit, vegetables and wild rice
	OtherNoncovered = "other_noncovered"
)

// Planting is what was planted on the farm in one crop year.
type Planting struct {
	CropYear  crop.CropYear
	Commodity string // a commodity key, or fruit_vegetables or other_noncovered
	Practice  Practice
	Acres     crop.Acres
	OnBase    *crop.Acres // of the acres, those on base acres; of fruit_vegetables only; nil: not stated
	Prevented crop.Acres
	Yield     *crop.Yield
}
