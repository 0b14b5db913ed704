package batch

import (
	"fmt"
	"io/fs"

	"fencerow/io/read/farmtable"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Options are what a run is to do.
type Options struct {
	Files    fs.FS                                               // has the table
	Tables   source.Tables                                       // reads a table that is no text; nil: such a one is refused
	Table    string                                              // .csv, .xlsx or .parquet, one row per farm, tract and commodity
	Out      string                                              // the folder for results
	Question answer.Question                                     // prices, counties, crop years (none: those of the rows), day, seed, number of scenarios; its operation is not used
	County   farmtable.County                                    // finds a county by name
	OfStates func(states ...string) ([]farm.CountySource, error) // the counties of some States, by two digits, that follow those of Question; nil: it has all
	Columns  farmtable.Profile                                   // which headings of the table mean which columns, beside those that are understood
	Part     int                                                 // this share of the operations, from 1 to Parts; 0: all
	Parts    int                                                 // into how many shares the operations are split
	Resume   bool                                                // do not make parts again that are whole
	Insured  bool                                                // read area insurance from the table, and answer it too
	Mask     bool                                                // numbers in place of names of clients, operations, farms and persons
	Pages    bool                                                // write a page of each client too
	Least    int                                                 // groups of fewer farms are left out of the county summary
	NoTables bool                                                // Question was made without the built-in county tables, for the audit
	Inputs   []Input                                             // the files behind Question, for the audit
	Talk     func(note string)
	// Progress is called with how many of all rows are done.
	Progress func(done, all int)
	Version  string
}

// share is the share of this run as it stands in file names, "03of16-"; "" where there
// is one alone.
func (o Options) share() string {
	if o.Part == 0 {
		return ""
	}
	return fmt.Sprintf("%02dof%02d-", o.Part, o.Parts)
}

// Input is a file that went into a run.
type Input struct {
	What   string `json:"what"` // its use in the run: "market file", "county book", ...
	Name   string `json:"name"`
	Path   string `json:"path"` // as it was given
	SHA256 string `json:"sha256"`
}

// Counts are the totals of a run, or of a part of it. Every row is answered or
// refused.
type Counts struct {
	Rows       int `json:"rows"`
	Answered   int `json:"answered"`
	Refused    int `json:"refused"`
	Operations int `json:"operations"`
	Farms      int `json:"farms"`
	Results    int `json:"results"`
}

func (c *Counts) add(other Counts) {
	c.Rows, c.Answered, c.Refused = c.Rows+other.Rows, c.Answered+other.Answered, c.Refused+other.Refused
	c.Operations, c.Farms, c.Results = c.Operations+other.Operations, c.Farms+other.Farms, c.Results+other.Results
}
