package answer

import "fencerow/program/crop"

// Cause is a kind of input that can move an answer, or what a line that moved is put
// down to.
type Cause string

// The kinds of inputs; then what is no kind by itself.
const (
	CausePrice    Cause = "price"        // national prices, of the year and of past ones
	CauseCounty   Cause = "county_yield" // county and benchmark yields
	CauseLaw      Cause = "law"          // rows of the law: another version of fencerow
	CauseProgram  Cause = "program"      // another version of fencerow with the same law
	CauseRecord   Cause = "record"       // what the file or table says of the farm
	CauseSettings Cause = "settings"     // settings of the question: seed, number of outcomes, close margin
	CauseJoint    Cause = "joint"        // no kind alone does it, or several do
)

// Inputs are what the margins of an answer rest on, kept so that the answer can be asked
// again when inputs have changed. They name no person and no share.
type Inputs struct {
	Format      string       `json:"format"` // fencerow/inputs/1
	Version     string       `json:"version"`
	CloseMargin float64      `json:"close_margin"` // USD per base acre
	Farms       []FarmInputs `json:"farms"`
	// Figures are prices, county figures of the farms' States and crops, and rows of the law:
	// JSON, packed by gzip, in base64. What is in it may change with every version.
	Figures string `json:"figures"`
}

// FarmInputs are what the margins of a farm rest on.
type FarmInputs struct {
	Farm   string       `json:"farm"`
	County string       `json:"county"`
	Missed []int        `json:"contract_missed,omitempty"` // crop years asked about of which no contract was signed
	Idle   bool         `json:"idle_2009_2017,omitempty"`
	Fruit  []FruitAcres `json:"fruit_vegetables,omitempty"`
	Bases  []BaseInputs `json:"bases"`
}

// FruitAcres are acres of fruit, vegetables and wild rice.
type FruitAcres struct {
	CropYear crop.CropYear `json:"crop_year"`
	Acres    float64       `json:"acres"`
	OnBase   *float64      `json:"on_base,omitempty"`
}

// BaseInputs is a base as it was entered.
type BaseInputs struct {
	Commodity      crop.Commodity `json:"commodity"`
	BaseAcres      float64        `json:"base_acres"`
	PaymentYield   *float64       `json:"payment_yield"`
	County         string         `json:"county,omitempty"` // "": that of the farm
	IrrigatedShare *float64       `json:"irrigated_share,omitempty"`
}

// Since is what changed since an earlier answer about the same farms.
type Since struct {
	Before  SinceAnswer `json:"before"`
	Inputs  []Cause     `json:"inputs_changed"` // kinds of inputs in which the two differ
	InBoth  int         `json:"lines_in_both"`  // farms, crops and crop years of both
	Moved   int         `json:"moved"`          // lines of both with other figures, flipped ones among them
	Flipped int         `json:"flipped"`        // lines of both with another lead
	OnlyOne [2]int      `json:"only_in_one"`    // lines that the earlier answer alone has, and this one
	Lines   []SinceLine `json:"lines"`          // those that moved, in the order of this answer
}

// SinceAnswer says which answer is compared with.
type SinceAnswer struct {
	File    string `json:"file"` // as it was named
	Today   string `json:"today"`
	Market  string `json:"market_as_of"`
	Version string `json:"version"`
}

// SinceLine is one farm, crop and crop year that moved.
type SinceLine struct {
	Farm      string         `json:"farm"` // key, "99001-0417"
	Commodity crop.Commodity `json:"commodity"`
	CropYear  crop.CropYear  `json:"crop_year"`
	Flipped   bool           `json:"flipped"` // another lead
	Before    MovedSide      `json:"before"`
	After     MovedSide      `json:"after"`
	Moved     *Dollars       `json:"usd_moved"` // ARC-CO less PLC on all base acres, after less before
	Cause     Cause          `json:"cause"`
	Moves     []Cause        `json:"moves_alone"` // kinds that by themselves move the line
	Flips     []Cause        `json:"flips_alone"` // kinds that by themselves give the new lead
	Alone     []MovedAlone   `json:"alone"`       // what each of Moves gives by itself
	Changed   []Changed      `json:"changed"`     // what changed, for the kinds that moved the line
}

// MovedSide is a line in one of two answers, USD per base acre; what is not known is null.
type MovedSide struct {
	Lead      string   `json:"leader"` // "": the answer has no such line
	Margin    *Dollars `json:"difference_mean"`
	PLC       *Dollars `json:"plc_mean"`
	ARCCO     *Dollars `json:"arc_co_mean"`
	BaseAcres *Dollars `json:"base_acres"`
}

// Total is the margin on all base acres, USD; nil where it is not known.
func (s MovedSide) Total() *float64 {
	if s.Margin == nil || s.BaseAcres == nil {
		return nil
	}
	all := float64(*s.Margin) * float64(*s.BaseAcres)
	return &all
}

// MovedFrom is how far the margin on all base acres moved, USD; nil where it is not known.
func (s MovedSide) MovedFrom(before MovedSide) *Dollars {
	b, a := before.Total(), s.Total()
	if b == nil || a == nil {
		return nil
	}
	return DollarsOf(*a - *b)
}

// MovedAlone is what one kind of input gives a line, every other one as before.
type MovedAlone struct {
	By    Cause    `json:"by"`
	Lead  string   `json:"leader"`
	Moved *Dollars `json:"usd_moved"`
}

// Changed is one figure or setting that changed.
type Changed struct {
	By         Cause  `json:"by"`
	What       string `json:"what"` // "price", "county_yield", "base_acres", ..., or the id of a row of the law
	County     string `json:"county,omitempty"`
	CountyName string `json:"county_name,omitempty"`
	Practice   string `json:"practice,omitempty"` // "" for all
	Before     string `json:"before"`             // "": there was none
	After      string `json:"after"`
}
