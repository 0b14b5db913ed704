package source

import (
	"errors"
	"path/filepath"
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// ErrNoDay means that a request does not say the day of its question.
var ErrNoDay = errors.New("io/source: Request.Today is not given")

// Question reads everything a request names and returns the question. All mistakes of
// all files come back together, as farm.Mistakes; only an error of the book, and a folder
// of county files that has none (a Wrong), end the reading at once.
//
// Where a figure comes from: the first of these that has it.
//
//	county yields  county files of the operation (county_files), then Counties and
//	               CountyFiles, then CountyFolder, then CountyTables, then Book, then
//	               the built-in county tables
//	prices         Market, else the operation's market_file; then the book's prices
//	               where they are newer than the built-in ones; then the built-in ones
//	crop years     CropYears, then the operation's, then the year of Today
//	close margin   CloseMargin, then the operation's
//
// Names written in the operation file are looked up beside it.
func Question(r Request) (Found, error) {
	if r.Today.IsZero() {
		return Found{}, ErrNoDay
	}
	l := newLoader(r)
	var inFolder []string
	if r.CountyFolder != "" {
		var err error
		if inFolder, err = countyFilesIn(l.Files, r.CountyFolder); err != nil {
			return Found{}, err
		}
	}
	if err := l.columnsFile(); err != nil {
		return Found{}, err
	}
	asked := answer.Question{Seed: r.Seed, Draws: r.Draws, Today: r.Today, Operation: l.operation()}
	l.signedLater(asked.Operation)
	l.insured(&asked.Operation)
	if r.CloseMargin != nil {
		asked.Operation.Settings.CloseMargin = r.CloseMargin
	}
	asked.CropYears = firstOf(r.CropYears, asked.Operation.CropYears)
	if len(asked.CropYears) == 0 && !r.ManyOperations {
		asked.CropYears = []crop.CropYear{r.Today.Year()}
	}
	for _, name := range asked.Operation.CountyFiles {
		l.countyFile(beside(r.Operation, name), name)
	}
	codes := l.namedCounties()
	for _, name := range r.CountyFiles {
		l.countyFile(name, filepath.Base(name))
	}
	l.countyFolder(inFolder)
	for _, name := range r.CountyTables {
		l.countyTable(name)
	}
	if !r.ManyOperations || !r.StatesLater {
		states := r.states(asked.Operation, codes)
		if err := l.countyBook(states); err != nil {
			return Found{}, err
		}
		if err := l.builtInTables(states); err != nil {
			return Found{}, err
		}
	}
	if err := l.importedPrices(); err != nil {
		return Found{}, err
	}
	asked.Counties = l.counties
	asked.Market = position.WithEveryPrice(l.market(asked.Operation.MarketFile))
	found := Found{Question: asked, Counties: codes, Profile: l.profile, Notes: l.notes, Inputs: l.Inputs(asked.Operation)}
	if len(l.mistakes) > 0 {
		return found, l.mistakes
	}
	return found, nil
}

// signedLater refuses signatures on a day after that of the question.
func (l *loader) signedLater(o farm.Operation) {
	for _, f := range o.Farms {
		for _, fault := range f.CheckSigned(l.Today.Format(time.DateOnly)) {
			l.mistakes = append(l.mistakes, farm.Mistake{File: l.Operation, Reason: fault.Reason, Hint: fault.Hint})
		}
	}
}

// states returns the States, by two digits, whose counties are taken from the book and
// the built-in tables; "" stands for all. Whole States, since a county without a ratio between two agencies'
// yields takes that of its neighbors.
func (r Request) states(o farm.Operation, codes []string) []string {
	if r.ManyOperations {
		return []string{""}
	}
	var states []string
	add := func(county string) {
		if len(county) >= 2 && !slices.Contains(states, county[:2]) {
			states = append(states, county[:2])
		}
	}
	for _, f := range o.Farms {
		add(f.County)
		for _, b := range f.Bases {
			add(b.PhysicalCounty(f))
		}
	}
	for _, code := range codes {
		add(code)
	}
	return states
}

// firstOf returns the first list that is not empty.
func firstOf(lists ...[]crop.CropYear) []crop.CropYear {
	for _, list := range lists {
		if len(list) > 0 {
			return list
		}
	}
	return nil
}
