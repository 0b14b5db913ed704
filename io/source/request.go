package source

import (
	"io/fs"
	"time"

	"fencerow/io/read/lines"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Request is what is asked about and where to look. What is left out is not looked for.
type Request struct {
	Files  fs.FS  // from which every file named below is read; names are handed on as they are written; nil: there are none
	Tables Tables // nil: of tables only .csv files of farms are read
	Book   Book   // nil: no county book

	BookName string // where Book lies, for Found.Inputs; "" for none

	Operation      string   // an operation file, or a table of farms by the end of its name; "": counties or prices alone
	OperationText  []byte   // the text of the operation file, where it is not in Files
	ManyOperations bool     // operations follow that are not read here: every county of the book, and no crop year by default
	Counties       []string // counties without an operation: codes, or county files
	CountyFiles    []string // beside those that the operation names
	CountyFolder   string   // a folder of which every .yaml is a county file; a county has one there
	CountyTables   []string // the agency's county tables
	Market         string   // a market file

	CropYears   []crop.CropYear // none: the operation's, else the year of Today
	Today       time.Time       // the day of the question; has to be given, since no clock is read here
	Seed        uint64          // of the draws
	Draws       int             // as answer.Question has it; 0 where nothing is drawn
	CloseMargin *crop.Money     // USD per base acre; nil: the operation's
}

// Found is a question ready to be asked.
type Found struct {
	Question answer.Question
	Counties []string // codes of Request.Counties in their order, each once
	Inputs   []Input  // the files that the question names
	Notes    []string // what was left out of the files without being a mistake, a line each
}

// Tables reads spreadsheets and other tables that are no text, by the names that a request
// has. A file that cannot be read is farm.Mistakes.
type Tables interface {
	// Lines opens a table of farms, .xlsx or .parquet, line by line. notes say what of
	// the file is not among its lines.
	Lines(name string) (found lines.Lines, notes []string, err error)
	// County returns the agency's county table; notes say, with the file's name, what of
	// it was left out.
	County(name string) (source farm.CountySource, notes []string, err error)
}

// Book is the county book, into which agencies' files were imported. Its errors are
// handed on as they are.
type Book interface {
	// Sources returns what each agency says of the counties of some States (two digits;
	// "": all), in the order in which their figures win.
	Sources(states ...string) ([]farm.CountySource, error)
	// Market returns the imported national prices; ok is false where there are none.
	Market() (prices farm.Market, ok bool, err error)
}
