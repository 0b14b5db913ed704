package source

import (
	"io/fs"
	"time"

	"fencerow/io/read/farmtable"
	"fencerow/io/read/lines"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Request is what is asked about and where to look. What is left out is not looked for.
type Request struct {
	Files  fs.FS  // holds every file named below, by the name as it is written here; nil: there are none
	Tables Tables // reads tables that are not text; nil: a table of farms must be .csv
	Book   Book   // nil: no county book

	WithoutBuiltIn bool // leave out the county tables that come with the program

	BookName string // where Book lies, for Found.Inputs; "" for none

	Operation      string   // an operation file, or a table of farms by the end of its name; "": counties or prices alone
	OperationText  []byte   // the text of the operation file, where it is not in Files
	Columns        string   // a columns file (farmtable.ParseProfile) for the table of farms
	Insured        bool     // read the columns of area insurance of a table of farms too
	ManyOperations bool     // the operations are read elsewhere: take every county of the book, and no crop year by default
	StatesLater    bool     // with ManyOperations: Question takes no county of book and built-in tables; they come by Later, once the States are known
	Counties       []string // counties without an operation: codes, or county files
	CountyFiles    []string // beside those that the operation names
	CountyFolder   string   // every .yaml in it is a county file; a county has one file there
	CountyTables   []string // the agency's county tables
	Market         string   // a market file
	Insurance      string   // an insurance file (operation.ParseInsurance), whose entries are added to those of the operation

	CropYears   []crop.CropYear // none: the operation's, else the year of Today
	Today       time.Time       // the day of the question; has to be given, since no clock is read here
	Seed        uint64          // of the scenarios
	Draws       int             // how many scenarios, as in answer.Question; 0 where there are none
	CloseMargin *crop.Money     // USD per base acre; nil: the operation's
}

// Found is a question ready to be asked.
type Found struct {
	Question answer.Question
	Counties []string          // codes of Request.Counties in their order, each once
	Inputs   []Input           // the files that the question names
	Profile  farmtable.Profile // of Request.Columns
	Notes    []string          // what was left out of the files without being a mistake, a line each
}

// Tables reads tables that are not text, by the names in a request. A file that cannot
// be read gives farm.Mistakes.
type Tables interface {
	// Lines opens a table of farms, .xlsx or .parquet, to be read line by line. notes say
	// what is in the file but not among its lines.
	Lines(name string) (found lines.Lines, notes []string, err error)
	// County returns the agency's county table; notes say, with the file's name, what of
	// it was left out.
	County(name string) (source farm.CountySource, notes []string, err error)
}

// Book is the county book: figures imported from agencies' files. Its errors are
// returned as they are.
type Book interface {
	// Sources returns each agency's figures for the counties of some States (two digits;
	// "": all). Where several have a figure, the first source wins.
	Sources(states ...string) ([]farm.CountySource, error)
	// Market returns the imported national prices; ok is false where there are none.
	Market() (prices farm.Market, ok bool, err error)
}
