package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Standing is the list of elections of one crop year: what leads, what is on record, and
// who decides.
type Standing struct {
	NewElection bool   `json:"new_election"` // the year's rules ask every farm to elect anew, also where the choice equals the record
	Source      string `json:"source"`       // of that rule
	// LaterCoverage is the crop year whose coverage later years start from where no new
	// election is made; "" where the year asks for none or the law has no row.
	LaterCoverage       string         `json:"later_coverage_of,omitempty"`
	LaterCoverageStatus crop.Status    `json:"later_coverage_status,omitempty"`
	LastDay             string         `json:"last_day"` // to elect and sign, YYYY-MM-DD; "unknown"
	LastDayFrom         string         `json:"last_day_source"`
	Lines               []StandingLine `json:"lines"` // by farm and commodity, in the order of the file
	// Papers are what the file says of papers at the county office, a part for each producer;
	// none where it says nothing of the year, and in a batch.
	Papers []PapersPart `json:"papers,omitempty"`
	// Entities are the producers of the file that others own, where it names the owners; none
	// in a batch.
	Entities []EntityPart `json:"entities,omitempty"`
}

// EntityPart is an entity with its owners.
type EntityPart struct {
	ID      string            `json:"id"`
	Kind    farm.ProducerKind `json:"kind"`
	Members []MemberPart      `json:"members"`
}

// MemberPart is an owner of an entity.
type MemberPart struct {
	ID    string `json:"id"`
	Share Chance `json:"share"`
}

// PapersPart are the papers of a producer for a crop year. What is not among them is not
// known, which does not say that it is not there.
type PapersPart struct {
	ID    string                    `json:"id"`
	Kind  farm.ProducerKind         `json:"kind"`
	Noted map[farm.Paper]farm.Noted `json:"noted"`
}

// StandingLine is one commodity on one farm. Amounts are before share, limit and
// sequestration.
type StandingLine struct {
	Farm        string                `json:"farm"`
	Commodity   crop.Commodity        `json:"commodity"`
	BaseAcres   Dollars               `json:"base_acres"`
	Leader      Leader                `json:"leader"`
	Leans       Leader                `json:"leans"`
	Margin      *Dollars              `json:"margin"`             // ARC-CO less PLC, USD per base acre on average
	MarginTotal *Dollars              `json:"margin_total"`       // the same on all base acres, USD
	AfterLimit  *DifferenceAfterLimit `json:"margin_after_limit"` // null where limits are reached in no more than 1 of 100 outcomes
	// Gain is what the producers of the file together are paid more on average after
	// share, limit and sequestration where this line follows Highest than where it stays
	// as on record and every other follows the choices; never below zero. Where ARC-IC is
	// Highest or on record the farm counts as a whole, with its first line. Null where
	// nothing is on record or a figure is missing.
	Gain *Dollars `json:"gain_after_limit"`
	// Highest is the program of the choices with the highest average after limits over
	// the whole operation; "" where a figure is missing.
	Highest  farm.Program  `json:"highest_mean"`
	OnRecord *farm.Program `json:"election_on_record"`
	Typed    *farm.Program `json:"typed_choice,omitempty"` // as people typed it; nil where they did not
	Differs  bool          `json:"differs_from_record"`    // Highest is known and not what is on record
	Contract farm.Contract `json:"contract"`
	Signers  []Signer      `json:"signers"`
	Others   Chance        `json:"others_share"` // of people outside the file
}

// Signer is a producer with a share in a base: all of them decide together.
type Signer struct {
	ID    string `json:"id"`
	Share Chance `json:"share"`

	// Signed and On say whether, and on what day, the signer signed the year's election of
	// the farm; "" where the file does not say.
	Signed farm.Noted `json:"signed,omitempty"`
	On     string     `json:"signed_on,omitempty"` // YYYY-MM-DD
}
