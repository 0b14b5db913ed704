package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// ComparisonFormat names the JSON of a Comparison.
const ComparisonFormat = "fencerow/comparison/3"

// Comparison is the answer to the main question: PLC beside ARC-CO for every
// farm, commodity and crop year of an operation.
type Comparison struct {
	Format    string     `json:"format"` // fencerow/comparison/3
	Today     string     `json:"today"`
	Seed      uint64     `json:"seed"`
	Draws     int        `json:"draws"`
	Market    MarketDate `json:"market"`
	Model     Model      `json:"model"`
	CropYears []YearPart `json:"crop_years"`
	Together  []Together `json:"together"` // empty for one crop year
	// ChangeFrom is the first crop year asked about from which the election can be
	// changed every year, 0 for none.
	ChangeFrom   crop.CropYear `json:"change_from,omitempty"`
	ChangeSource string        `json:"change_source,omitempty"`
	Caution      []string      `json:"caution"`
	Since        *Since        `json:"since,omitempty"`  // where an earlier answer is compared with
	Inputs       *Inputs       `json:"inputs,omitempty"` // in the JSON of an answer, so that it can be asked again
}

// Model is which odds were asked for.
type Model struct {
	Name ModelName `json:"name"`
	Tail Tail      `json:"tail"`
	Note string    `json:"note"` // "" for the usual odds
}

// MarketDate is how old the prices are and who gave them.
type MarketDate struct {
	AsOf   string `json:"as_of"`
	Source string `json:"source"`
}

// YearPart is one crop year of the answer.
type YearPart struct {
	CropYear  crop.CropYear `json:"crop_year"`
	Farms     []FarmPart    `json:"farms"`
	Operation OperationPart `json:"operation"`
	Standing  Standing      `json:"standing"`
}

// FarmPart is one farm in one crop year.
type FarmPart struct {
	Farm        string          `json:"farm"` // key, "99001-0417"
	Contract    farm.Contract   `json:"contract"`
	Lease       farm.Lease      `json:"lease,omitempty"` // how the land is rented, where the file says so
	Commodities []CommodityPart `json:"commodities"`
	ARCIC       *ARCICPart      `json:"arc_ic"`
	Elections   []Election      `json:"elections"`
	Whole       *WholeFarm      `json:"whole_farm,omitempty"` // in a brief answer alone
	Criteria    *CriteriaPart   `json:"criteria"`             // null where not asked
	Insurance   *Insurance      `json:"insurance,omitempty"`  // where the file has insurance of the crop year
	Flags       []Flag          `json:"flags"`
}

// CommodityPart is one commodity on one farm. Payments are means in USD per base acre,
// after the payment-acre share, before producers' shares, limit and sequestration.
type CommodityPart struct {
	Commodity               crop.Commodity        `json:"commodity"`
	BaseAcres               Dollars               `json:"base_acres"`
	PaymentYield            *Dollars              `json:"payment_yield"` // weighted by base where tracts differ
	EffectiveReferencePrice *Price                `json:"effective_reference_price"`
	ReferencePriceStatus    crop.Status           `json:"effective_reference_price_status"`
	BenchmarkPrice          *Price                `json:"benchmark_price"`
	BenchmarkPriceStatus    crop.Status           `json:"benchmark_price_status"`
	ReferencePriceDrawn     *PriceRange           `json:"effective_reference_price_drawn"` // where it depends on prices to come
	BenchmarkPriceDrawn     *PriceRange           `json:"benchmark_price_drawn"`
	MYA                     *PriceView            `json:"mya"`
	Bases                   []BasePart            `json:"bases"`
	Programs                Programs              `json:"programs"`
	Difference              *Difference           `json:"difference"`             // ARC-CO less PLC
	AfterLimit              *DifferenceAfterLimit `json:"difference_after_limit"` // null where limits are reached in no more than 1 of 100 outcomes
	ChanceNeitherPays       *Chance               `json:"chance_neither_pays"`
	ChanceARCCOMore         *Chance               `json:"chance_arc_co_more"`
	ChancePLCMore           *Chance               `json:"chance_plc_more"`
	ChanceEqual             *Chance               `json:"chance_equal"` // both pay the same, above zero
	ChanceErrors            *ChanceErrors         `json:"chance_standard_errors"`
	LeadByPrice             []Lead                `json:"lead_by_price"`
	LeadByYield             []YieldLead           `json:"lead_by_yield"`
	StartPoints             *StartPoints          `json:"start_points"`
	Elsewhere               []PaymentAt           `json:"payments_elsewhere"` // at other prices and county yields
	ByPrice                 []PaymentBy           `json:"payments_by_price"`  // at CurveYields
	EvenPaymentYield        *Dollars              `json:"even_payment_yield"`
	Leader                  Leader                `json:"leader"`
	Leans                   Leader                `json:"leans"`
	LeaderReason            string                `json:"leader_reason"`
	OnRecord                *farm.Program         `json:"election_on_record"`
	PaymentNotBefore        string                `json:"payment_not_before"`                // first day the law allows, "2027-10-01"
	TaxYear                 int                   `json:"tax_year"`                          // of a payment received on that day or in the rest of its year
	NotEnrolled             *Dollars              `json:"not_enrolled,omitempty"`            // 0.00 where STAX asks for a base that is not enrolled
	AssumedShare            *AssumedShare         `json:"irrigated_share_assumed,omitempty"` // where a base of a county with yields by practice gives no irrigated share
}

// ChanceErrors are the standard errors of the four chances, as shares.
type ChanceErrors struct {
	NeitherPays Chance `json:"neither_pays"`
	ARCCOMore   Chance `json:"arc_co_more"`
	PLCMore     Chance `json:"plc_more"`
	Equal       Chance `json:"equal"`
}

// PriceView is the distribution of the marketing-year average price.
type PriceView struct {
	Mean   Price       `json:"mean"`
	SD     Price       `json:"sd"`
	Status crop.Status `json:"status"`
	Source string      `json:"source"`
	SDFrom string      `json:"spread_from"` // the rule behind the standard deviation
	Low    *Price      `json:"low"`         // one outcome in ten is lower; null in a batch and where so few scenarios cannot resolve it
	High   *Price      `json:"high"`        // one in ten is higher; null as Low
}

// PriceRange is a price of the law that is made of prices to come and so differs by
// scenario.
type PriceRange struct {
	Mean Price `json:"mean"`
	SD   Price `json:"sd"`
}

// ARCICPart is individual coverage of the whole farm; null where no covered
// planting is given and ARC-IC is not on record.
type ARCICPart struct {
	Missing          string       `json:"missing"`           // why there are no figures; "" when there are
	CanMatter        bool         `json:"can_matter"`        // worth looking at
	Reason           string       `json:"reason"`            // why it can matter, or why not
	PooledWith       []string     `json:"pooled_with"`       // other farms of the State with ARC-IC on record, by key
	PaymentAcres     Dollars      `json:"payment_acres"`     // of all base
	BenchmarkRevenue *Dollars     `json:"benchmark_revenue"` // USD per planted acre, this farm alone
	Guarantee        *Dollars     `json:"guarantee"`
	AllPrevented     bool         `json:"all_prevented"`
	OwnYield         *Chance      `json:"own_yield"`    // mean as a share of the own benchmark yield, weighted by planted acres
	CountyYield      *Chance      `json:"county_yield"` // of the county's benchmark yield, likewise; nil where not known
	Crops            []ARCICCrop  `json:"crops"`
	PerBaseAcre      *ProgramPart `json:"per_base_acre"` // what it pays per base acre of the farm
	Status           crop.Status  `json:"status"`
}

// ARCICCrop is one covered commodity planted on the farm.
type ARCICCrop struct {
	Commodity        crop.Commodity `json:"commodity"`
	PlantedAcres     Dollars        `json:"planted_acres"`
	PreventedAcres   Dollars        `json:"prevented_acres"`
	BenchmarkRevenue *Dollars       `json:"benchmark_revenue"` // USD per acre
	Yield            *YieldView     `json:"yield"`             // the farm's own, of the crop year
}

// BasePart is one base in its county, or one practice of it. Yields are units per acre,
// revenues USD per acre.
type BasePart struct {
	County           string      `json:"county"`
	CountyName       string      `json:"county_name"`
	Tract            string      `json:"tract"`
	Practice         string      `json:"practice"`
	BaseAcres        Dollars     `json:"base_acres"`
	BenchmarkYield   *Dollars    `json:"benchmark_yield"`
	BenchmarkRevenue *Dollars    `json:"benchmark_revenue"`
	Guarantee        *Dollars    `json:"guarantee"`
	CountyYield      *YieldView  `json:"county_yield"`
	BenchmarkFrom    string      `json:"benchmark_from"` // which source won
	BenchmarkStatus  crop.Status `json:"benchmark_status"`
	GuaranteeStatus  crop.Status `json:"guarantee_status"` // the weaker of benchmark yield and price
	PaymentAcres     Dollars     `json:"payment_acres"`    // of PLC and ARC-CO
	CRPReduction     Dollars     `json:"crp_reduction"`    // base reduced while land is in CRP; not in base_acres
}

// YieldView is the distribution of a county yield, or of a farm's own.
type YieldView struct {
	Mean        Dollars     `json:"mean"`
	SD          Dollars     `json:"sd"`
	KnownFrom   string      `json:"known_from"`
	Status      crop.Status `json:"status"`
	Shape       string      `json:"shape"`
	Correlation Chance      `json:"correlation_with_price"`
	MeanFrom    string      `json:"mean_from"`   // the rule and source of the mean
	SDFrom      string      `json:"spread_from"` // the rule behind the standard deviation
	OtherMeans  []OtherMean `json:"other_means"` // by other estimators; none where the mean was told
	Low         *Dollars    `json:"p10"`         // one outcome in ten is lower; null in a batch, where the yield is known and where so few scenarios cannot resolve it
	High        *Dollars    `json:"p90"`         // one in ten is higher; null as Low
}

// OtherMean is a mean county yield by another estimator, units per acre.
type OtherMean struct {
	Mean Dollars `json:"mean"`
	From string  `json:"from"`
}

// Programs is what the programs pay; nil where a figure is missing. In a crop year whose
// law pays the higher of PLC and ARC-CO, that is a third.
type Programs = ByProgram[ProgramPart]

// ProgramPart is what one program pays over all scenarios, USD per base acre.
type ProgramPart struct {
	Mean                Dollars     `json:"mean"`
	StandardError       Dollars     `json:"standard_error"`
	SD                  Dollars     `json:"sd"`
	Maximum             Dollars     `json:"maximum"` // the most it can pay
	ChanceOfPayment     Chance      `json:"chance_of_payment"`
	ChanceOfMaximum     Chance      `json:"chance_of_maximum"`
	MeanWhenPaying      *Dollars    `json:"mean_when_paying"`
	CostOfWrongElection *Dollars    `json:"cost_of_wrong_pick"` // mean of what the other program pays more where it does; nil where there is no other
	Percentiles         Percentiles `json:"percentiles"`

	ChanceError      Chance      `json:"chance_of_payment_standard_error"`
	PercentileErrors Percentiles `json:"percentile_standard_errors"`

	// OfFifty are fifty evenly spaced cases, rising: percentiles 1, 3, ..., 99, each for
	// two outcomes in a hundred. Null in a batch and where so few scenarios cannot resolve
	// them.
	OfFifty []Dollars `json:"of_fifty"`
}

// DifferenceAfterLimit is the mean of ARC-CO less PLC on one commodity of one farm after
// share, limit and sequestration, for all producers of the file together, while
// everything else follows the choices of the operation.
type DifferenceAfterLimit struct {
	Mean          Dollars `json:"mean"`            // USD per base acre
	Total         Dollars `json:"total"`           // USD
	ChanceOfLimit Chance  `json:"chance_of_limit"` // share of scenarios in which somebody paid for the farm reaches a limit
}

// Lead is an interval of prices and the program that pays more in it at the mean yields.
type Lead struct {
	Below  *Price `json:"below,omitempty"` // first price step at which it no longer leads; none in the last
	Leader Leader `json:"ahead"`
}

// Leader is a verdict, or the program that pays more at given figures.
type Leader string

// The verdicts. LeadsPLC and LeadsARCCO are program keys.
const (
	LeadsPLC     Leader = "PLC"
	LeadsARCCO   Leader = "ARC-CO"
	Close        Leader = "close"         // too close to call
	LittleChance Leader = "little_chance" // fewer than ten in a hundred scenarios pay
	None         Leader = "none"          // a needed figure is missing
	Neither      Leader = "neither"       // neither pays, or both average the same
	Equal        Leader = "equal"         // both pay the same
)

// Election is the whole farm under one combination of programs, USD in total.
type Election struct {
	Choice         Choice       `json:"choice"`
	Mean           *Dollars     `json:"mean"` // before share, limit and sequestration
	StandardError  *Dollars     `json:"standard_error"`
	MeanAfterLimit *Dollars     `json:"mean_after_limit"` // after share, limit and sequestration, all producers of the file
	Percentiles    *Percentiles `json:"percentiles"`

	PercentileErrors *Percentiles `json:"percentile_standard_errors"`
}

// OperationPart is the whole operation in one crop year, USD in total.
type OperationPart struct {
	HighestMean         map[string]Choice `json:"highest_mean"` // by farm key
	Mean                *Dollars          `json:"mean"`
	MeanAfterLimit      *Dollars          `json:"mean_after_limit"`
	MeanAcross          *Dollars          `json:"mean_after_limit_across,omitempty"` // the same with one limit for persons of several operations; of a batch
	Bound               *Dollars          `json:"bound"`                             // no choice of PLC and ARC-CO averages more after limits
	Gap                 *Dollars          `json:"gap"`                               // bound less the average of the choice, 0 where exact
	Exact               bool              `json:"exact"`                             // no choice has a mean half a cent higher
	Sequestration       Chance            `json:"sequestration"`                     // share of every payment that is withheld
	SequestrationStatus crop.Status       `json:"sequestration_status"`
	CostOfLimit         *Dollars          `json:"cost_of_limit"` // what the payment limit keeps back on average, after sequestration
	Simplest            *SimplestPart     `json:"simplest"`
	ByPerson            []PersonPart      `json:"by_person"`
	LeftOut             []string          `json:"left_out"`                // farm and commodity without figures
	Percentiles         *Percentiles      `json:"percentiles_after_limit"` // of what all producers of the file are paid together; nil in a batch
	Under               []UnderPart       `json:"under"`                   // as last elected, as each line leans, then as typed if so; none in a batch
}

// SimplestPart is the choice with the same program on every farm, commodity by
// commodity, that has the highest average after limits.
type SimplestPart struct {
	Choice         Choice  `json:"choice"`
	MeanAfterLimit Dollars `json:"mean_after_limit"`
}

// PersonPart is one producer of the file, or a member of one, USD. The parts add up to
// the operation: what an entity passes on stands with its owners.
type PersonPart struct {
	ID             string      `json:"id"`
	Mean           Dollars     `json:"mean"` // after share and attribution, before limit
	MeanAfterLimit Dollars     `json:"mean_after_limit"`
	Limit          Dollars     `json:"payment_limit"` // of each limit pool; of a joint operation, its members' together
	LimitStatus    crop.Status `json:"payment_limit_status"`
	ChanceOfLimit  Chance      `json:"chance_of_limit"` // share of scenarios in which it is reached
	MeanOverLimit  Dollars     `json:"mean_over_limit"` // what the limit keeps back on average, after sequestration

	// What is withheld of Mean on average; MeanAfterLimit and the two add up to it. The
	// second is what limits of the person or of an entity between, and the bar for income,
	// keep back, in dollars as they would be paid.
	WithheldSequestration Dollars `json:"withheld_by_sequestration"`
	WithheldLimit         Dollars `json:"withheld_by_limit"`

	// What is paid after share, limit and sequestration, over all scenarios, and when
	// at the earliest: the last first day of any commodity of the crop year.
	Percentiles      Percentiles `json:"percentiles_after_limit"`
	PercentileErrors Percentiles `json:"percentile_standard_errors"`
	PaymentNotBefore string      `json:"payment_not_before"`
	TaxYear          int         `json:"tax_year"`

	Across *AcrossPart `json:"across_operations,omitempty"` // of a batch: who has a share in several operations
}
