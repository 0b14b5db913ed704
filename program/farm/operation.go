package farm

import (
	"slices"

	"fencerow/program/crop"
)

// Program is one of the three choices.
type Program string

// The programs, by the key every file and screen uses.
const (
	PLC   Program = "PLC"
	ARCCO Program = "ARC-CO"
	ARCIC Program = "ARC-IC"
	// HigherOf is no choice: the law of crop year 2025 pays it whatever was elected.
	HigherOf Program = "HIGHER-OF"
)

// Operation is what one file describes: the farms that one decision is about.
type Operation struct {
	CropYears   []crop.CropYear // the years asked about; empty: the command decides
	Settings    Settings
	CountyFiles []string // as written, relative to the operation file
	MarketFile  string
	Producers   []Producer
	Farms       []Farm
}

// Settings are the user's overrides; a nil or missing value means the default.
type Settings struct {
	PaymentLimit  map[crop.CropYear]crop.Money
	Sequestration map[crop.CropYear]crop.Share
	DiscountRate  float64
	CloseMargin   *crop.Money // USD per base acre
}

// Farm is one FSA farm.
type Farm struct {
	Number       string // the FSA farm number as typed
	County       string // administrative county, as the agency codes it
	Contract     ByCropYear[Contract]
	Record       map[crop.Commodity]Program                   // the election on record
	Choice       map[crop.CropYear]map[crop.Commodity]Program // as people typed it; never filled in by the program
	Signed       map[crop.CropYear]map[string]Signature       // the election of the year, by producer
	Shares       ByCropYear[Shares]
	Lease        Lease
	TotalAcres   *crop.Acres
	Cropland     *crop.Acres
	Idle20092017 bool // all cropland in grass, idle or fallow through 2009-2017
	Unassigned   crop.Acres
	BeforeNotice *bool                         // the farm record is older than the notice of new base of 2026; nil: not known
	Notice       map[crop.Commodity]NoticeBase // base as that notice has it
	MergeWith    string
	STAXBought   map[crop.CropYear]bool
	Insurance    []Insurance
	Bases        []Base
	Planted      []Planting
	History      map[crop.Commodity]map[crop.CropYear]crop.Yield // own yields, for ARC-IC
}

// NoticeBase is base of a commodity as the notice of new base has it.
type NoticeBase struct {
	BaseAcres    crop.Acres
	PaymentYield *crop.Yield // nil: that of the farm record
}

// Key names the farm across counties: "99001-0417".
func (f Farm) Key() string { return f.County + "-" + f.Number }

// Commodities returns the commodities with base on the farm, in the order of
// the agency's list.
func (f Farm) Commodities() []crop.Commodity {
	var found []crop.Commodity
	for _, b := range f.Bases {
		if !slices.Contains(found, b.Commodity) && b.Commodity.Index() >= 0 {
			found = append(found, b.Commodity)
		}
	}
	slices.SortFunc(found, func(a, b crop.Commodity) int { return a.Index() - b.Index() })
	return found
}

// BasesOf returns the bases of one commodity in file order.
func (f Farm) BasesOf(c crop.Commodity) []Base {
	var found []Base
	for _, b := range f.Bases {
		if b.Commodity == c {
			found = append(found, b)
		}
	}
	return found
}

// BaseAcres returns all base acres of the farm.
func (f Farm) BaseAcres() (total crop.Acres) {
	for _, b := range f.Bases {
		total += b.BaseAcres
	}
	return total
}

// PlantedAcres returns the acres of a crop planted in a crop year, all
// practices together.
func (f Farm) PlantedAcres(commodity string, y crop.CropYear) crop.Acres {
	planted, _ := f.acresOf(commodity, y)
	return planted
}

// PlantedOnBase returns the acres of a crop planted on base acres in a crop year, as far
// as the file says; stated is false where it does not say so of every planting, whose
// acres then all count.
func (f Farm) PlantedOnBase(commodity string, y crop.CropYear) (acres crop.Acres, stated bool) {
	stated = true
	for _, p := range f.Planted {
		if p.Commodity != commodity || p.CropYear != y {
			continue
		}
		if p.OnBase == nil {
			acres, stated = acres+p.Acres, false
			continue
		}
		acres += *p.OnBase
	}
	return acres, stated
}

// PreventedAcres returns the acres of a crop prevented from being planted in a
// crop year.
func (f Farm) PreventedAcres(commodity string, y crop.CropYear) crop.Acres {
	_, prevented := f.acresOf(commodity, y)
	return prevented
}

func (f Farm) acresOf(commodity string, y crop.CropYear) (planted, prevented crop.Acres) {
	for _, p := range f.Planted {
		if p.Commodity == commodity && p.CropYear == y {
			planted, prevented = planted+p.Acres, prevented+p.Prevented
		}
	}
	return planted, prevented
}

// ByCropYear is a value that may differ by crop year.
type ByCropYear[T any] struct {
	Every *T // for every year without one of its own; nil where not stated
	Year  map[crop.CropYear]T
}

// In returns the value of crop year y; ok is false where none is stated.
func (b ByCropYear[T]) In(y crop.CropYear) (value T, ok bool) {
	if value, ok = b.Year[y]; ok {
		return value, true
	}
	if b.Every != nil {
		return *b.Every, true
	}
	return value, false
}

// Contract says whether the yearly contract is signed.
type Contract string

// What a contract can be. Open: figures are what would be paid if signed.
// Missed: sign-up closed unsigned, so the farm is paid nothing that year.
const (
	Open   Contract = "open"
	Signed Contract = "signed"
	Missed Contract = "missed"
)

// Lease is how the land is rented.
type Lease string

// The leases.
const (
	NoLease    Lease = ""
	CashLease  Lease = "cash"
	ShareLease Lease = "share"
	FlexLease  Lease = "flex"
)

// Shares are the parts of a payment by producer id; what is missing from one
// belongs to people outside the file.
type Shares map[string]crop.Share
