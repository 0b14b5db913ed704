package answer

// UnderName names a set of elections for the whole operation.
type UnderName string

// The sets.
const (
	LastElected UnderName = "last_elected" // the elections on record
	AsItLeans   UnderName = "leads"        // of PLC and ARC-CO the one with the higher average before limits, however close
	TypedChoice UnderName = "typed_choice" // what people typed; only in a year with such a choice
)

// UnderPart is the whole operation under one set of elections in one crop year, USD. A
// line under AsItLeans that averages the same under both programs keeps the one on
// record, else PLC. Where the law pays the higher of both, all sets hold HIGHER-OF.
type UnderPart struct {
	Elections      UnderName         `json:"elections"`
	Choices        map[string]Choice `json:"choices"`                 // by farm key; without what is left out
	Mean           *Dollars          `json:"mean"`                    // before share, limit and sequestration; nil where all is left out
	MeanAfterLimit *Dollars          `json:"mean_after_limit"`        // of all producers of the file together
	Percentiles    *Percentiles      `json:"percentiles_after_limit"` // of the sum that they are paid in each scenario
	ByPerson       []PersonPart      `json:"by_person"`
	LeftOut        []string          `json:"left_out"`      // farm and commodity without figures, or with nothing on record or typed
	ARCICInside    bool              `json:"arc_ic_inside"` // a farm is under ARC-IC
}

// UnderElections returns the operation under a set of elections, nil where it was not worked out.
func (o OperationPart) UnderElections(name UnderName) *UnderPart {
	for i := range o.Under {
		if o.Under[i].Elections == name {
			return &o.Under[i]
		}
	}
	return nil
}
