package record

import (
	"fmt"
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Place is where something stands in the text.
type Place struct {
	Page int // from 1; counted by form feeds, or by page heads where there are none
	Line int // of the whole text, from 1
}

func (p Place) String() string { return fmt.Sprintf("page %d line %d", p.Page, p.Line) }

// Text is a word of the print with its place; blank where the print has none.
type Text struct {
	Text  string
	Place Place
}

// Figure is a number of the print. Known is false where its cell is blank or cannot be
// read as a number; Text has what is printed.
type Figure struct {
	Number float64
	Known  bool
	Text   string
	Place  Place
}

// Private is what says who somebody is: names, contract numbers. It is kept, and printing
// it shows only how many there are.
type Private []string

// String does not tell what is inside.
func (p Private) String() string { return fmt.Sprintf("(%d not shown)", len(p)) }

// GoString does not tell either.
func (p Private) GoString() string { return p.String() }

// MarshalText keeps what is inside out of JSON and YAML.
func (p Private) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// Layout is the form of the print.
type Layout string

// The layouts: acres in hundredths and "Form:", or in tenths and "Report ID:".
const (
	Newer Layout = "newer"
	Older Layout = "older"
)

// Record is one farm of one print.
type Record struct {
	Layout      Layout
	Farm        Text // number
	State       Text // of the page head: the administering office
	County      Text
	CropYear    Figure
	Prepared    Text
	PreparedOn  time.Time // day of Prepared; zero where it cannot be read
	Eligibility Text      // "ARCPLC G/I/F Eligibility"
	Idle        bool      // what it is taken to mean: all cropland grass, idle or fallow in 2009 to 2017
	IdleOpen    bool      // the print does not say so or otherwise, and should
	Operator    Private
	Contracts   Private // CRP contract numbers
	Extra       []Fact  // labels that are not used, of the farm
	Land        []LandFigure
	Tracts      Figure // "Number Of Tracts"
	Elections   []Election
	Crops       []*Crop
	Total       Total
	Notes       []Text
	Parts       []*Tract
	Unread      []Unread // lines that are not understood
	Warnings    []Note   // what does not add up, with both numbers
	Asked       []Note   // what cannot be decided from the print
}

// Fact is a label with its value that is kept and not used.
type Fact struct {
	Label string
	Value Private
	Place Place
}

// LandFigure is an acreage of the land block, by the names that landNames lists.
type LandFigure struct {
	Name string // "cropland"
	Figure
}

// Election is one crop in a list of the last elections.
type Election struct {
	Program   farm.Program
	Code      string         // as printed
	Commodity crop.Commodity // "" where the code is not known
	Place     Place
}

// Crop is one *row of a table of base acres.
type Crop struct {
	Name       string         // as printed
	Commodity  crop.Commodity // "" where the name is not known, and for unassigned base
	Unassigned bool
	Base       Figure // acres, in effect: Reduction is out of it already
	Reduction  Figure // acres: CCC-505 CRP reduction
	Yield      Figure // PLC yield
	HIP        Figure // historical irrigated percentage, 0 to 100; on the farm's table alone
	Place      Place
}

// Total is the last row of such a table.
type Total struct{ Base, Reduction Figure }

// Tract is one tract of the farm.
type Tract struct {
	Number   Text
	State    Text // where the land lies; blank where the print does not say
	County   Text
	Owners   Private
	Others   Private // other producers
	Extra    []Fact
	Land     []LandFigure
	Crops    []*Crop
	Total    Total
	HasCrops bool // a table of base acres stands on the print
}

// Unread are lines that follow each other and are not understood. Where people may be
// named in them, their text is Private.
type Unread struct {
	First, Last Place
	Section     string // where they stand: "crops"
	Text        string // "" where Private has it
	Private     Private
}

// Note is a sentence with its place.
type Note struct {
	Place   Place
	Message string
}

func (n Note) String() string { return n.Place.String() + ": " + n.Message }

// land returns the figure of a name, not known where the print has none.
func land(all []LandFigure, name string) Figure {
	for _, f := range all {
		if f.Name == name {
			return f.Figure
		}
	}
	return Figure{}
}

// Settle takes away what was asked of a place, once it is answered.
func (r *Record) Settle(at Place) {
	r.Asked = slices.DeleteFunc(r.Asked, func(n Note) bool { return n.Place == at })
}

// Landed returns an acreage of the farm's land block: farmland, cropland, crp,
// double_cropped.
func (r *Record) Landed(name string) Figure { return land(r.Land, name) }
