package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/batch"
	"fencerow/io/disk"
	"fencerow/io/file"
	"fencerow/io/read/farmfile"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/farm"
)

// batchDraws are drawn for each operation of a batch where no number is asked for:
// fewer than for one operation, since many are asked.
const batchDraws = 4096

// batchGC is by how many percent memory may grow before it is tidied up: a batch makes much
// that is soon thrown away. At 150 it takes a tenth less time than at Go's 100, and for
// 2,000 farms 165 MB at its peak where 100 takes 141.
const batchGC = 150

// batchMemory is how much memory, in bytes, a batch holds before it is tidied up more often, so
// that its peak stays under 256 MB for any number of farms; batchRoom is the least it has beside
// the counties.
const batchMemory, batchRoom = 208 << 20, 140 << 20

// limitMemory sets batchMemory, or more where counties leave too little of it.
func limitMemory() {
	if os.Getenv("GOMEMLIMIT") != "" {
		return
	}
	var now runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&now)
	debug.SetMemoryLimit(max(batchMemory, int64(now.HeapAlloc)+batchRoom))
}

// leastGroup is how many farms a group of the county summary has at least.
const leastGroup = 10

func newBatch() *cobra.Command {
	var q question
	var b batchAsk
	c := &cobra.Command{
		Use:   "batch TABLE --out DIR",
		Short: "answer a table of many farms: results by farm and crop, people, exceptions",
		Long: `Reads a table (.csv, .xlsx or .parquet) with one row per farm, tract and crop
(docs/formats.md) and answers every operation. Part files (CSV and Parquet) go into
DIR and are joined at the end. There you find results, people, farms, exceptions,
calls, counties.csv, summary.xlsx and run.json. A refused row stands in refused.csv
with its line and reason. The others are answered.

Exit codes: 0 done; 1 a fault of the program; 2 wrong use; 3 the input is wrong;
4 some rows were refused. The others are answered then.`,
		Example: "  fencerow batch --template farms.xlsx\n  fencerow batch farms.csv --out results --crop-year 2026",
		Args:    atMost(1, "one table"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error { return b.run(c, &q, args) })
		},
	}
	q.addBook(c)
	q.addDraws(c, batchDraws)
	q.addSources(c)
	q.addColumns(c)
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years, as 2026 or 2026,2027 (default: those of the rows, else this year)")
	c.Flags().StringArrayVar(&q.countyFiles, "county-file", nil, "a county file, used before the tables; may be repeated")
	c.Flags().StringVar(&b.countyFolder, "county-folder", "", "a folder whose .yaml files are county files, used after those of --county-file")
	c.Flags().StringVar(&b.out, "out", "", "the folder that the results go to")
	c.Flags().StringVar(&b.template, "template", "", "write an empty table with explanations to this .xlsx file, and nothing else; --insurance adds the columns of area insurance")
	c.Flags().BoolVar(&q.force, "force", false, "with --template: replace a file that is there")
	c.Flags().StringVar(&b.part, "part", "", "answer one share of the operations, as 3/16; other computers take the rest")
	c.Flags().BoolVar(&b.resume, "resume", false, "go on with a run that was interrupted")
	c.Flags().BoolVar(&b.mask, "mask", false, "write numbers instead of the names of clients, operations, farms and people")
	c.Flags().BoolVar(&b.insured, "insurance", false, "read SCO, ECO and STAX from the table (insured_layers, insured_plan and other columns, docs/formats.md) and write insurance.csv and .parquet")
	c.Flags().BoolVar(&b.pages, "pages", false, "write a printable page of each client into the folder pages, as compare --page does: about 55 kB for each farm")
	c.Flags().IntVar(&b.least, "least", leastGroup, "leave out of counties.csv any group with fewer farms than this")
	c.AddCommand(newBatchDiff(), newBatchJoin())
	return c
}

// batchAsk holds batch's own flags.
type batchAsk struct {
	out, template, part string
	countyFolder        string
	resume, mask, pages bool
	insured             bool
	least               int
}

func (b *batchAsk) run(c *cobra.Command, q *question, args []string) error {
	if b.template != "" {
		return b.writeTemplate(c, q, args)
	}
	switch {
	case q.force:
		return usageError{"--force goes with --template", "leave it out; to go on with a folder there is --resume"}
	case len(args) == 0:
		return usageError{"no table is given", "name one, or write an empty one with --template farms.xlsx"}
	case b.out == "":
		return usageError{"--out is missing", "name the folder that the results go to"}
	case b.pages && b.mask:
		return usageError{"--pages does not go with --mask", "leave out one of the two: pages are for the people whose names they show"}
	case b.least < 1:
		return usageError{fmt.Sprintf("--least is %d", b.least), "give a number of farms from 1 on"}
	}
	part, parts, err := parsePart(b.part)
	if err != nil {
		return err
	}
	path, err := q.takeInput(c, args[0])
	if err != nil {
		return err
	}
	o := batch.Options{Table: path, Files: q.disk(), Tables: disk.Tables{}, Out: b.out, Part: part, Parts: parts, Resume: b.resume, Insured: b.insured, Mask: b.mask, Pages: b.pages, Least: b.least, NoTables: q.builtIn == noTables, Version: version}
	talk := c.ErrOrStderr()
	o.Talk = func(note string) { fmt.Fprintln(talk, "fencerow: note: "+note) }
	r, closeBook, err := b.request(c, q)
	if err != nil {
		return err
	}
	defer closeBook()
	found, err := q.read(c, r)
	if err != nil {
		return err
	}
	later := &source.Later{Request: r}
	o.Question, o.Columns = found.Question, found.Profile
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(-1)) // as before, for whoever runs more than this
	o.OfStates = func(states ...string) ([]farm.CountySource, error) {
		defer limitMemory()
		return later.OfStates(states...)
	}
	o.Question.Brief = true
	o.County = later.CountyNames(o.Question.Counties)
	if o.Inputs, err = batch.Inputs(q.inputs); err != nil {
		return err
	}
	var bar terminal.Progress
	o.Progress = func(done, all int) {
		if done == 0 {
			bar = terminal.NewRowProgress(talk, all)
		}
		bar.Reach(done)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(batchGC)
	}
	counts, err := batch.Run(o)
	bar.Done()
	return b.ended(c, q, counts, err)
}

// writeTemplate writes an empty table, never over what the flags name.
func (b *batchAsk) writeTemplate(c *cobra.Command, q *question, args []string) error {
	return written(c.ErrOrStderr(), q.filesBeside(strings.Join(args, "")), b.template, func(w io.Writer) error { return farmfile.WriteTemplate(w, b.insured) })
}

// ended tells what a run came to.
func (b *batchAsk) ended(c *cobra.Command, q *question, counts batch.Counts, err error) error {
	switch {
	case errors.Is(err, batch.ErrNotEmpty):
		return usageError{b.out + ": " + err.Error(), "go on with them by --resume, or name another folder"}
	case errors.Is(err, file.ErrTaken):
		return usageError{b.out + ": " + err.Error(), "wait for its end, or name another folder"}
	case errors.Is(err, batch.ErrOtherRun):
		return usageError{b.out + ": " + err.Error(), "give the same inputs and settings as before (the folder counts lists them), or name another folder"}
	case err != nil:
		return err
	}
	if q.json {
		err = printJSON(c.OutOrStdout(), counts)
	} else {
		_, err = fmt.Fprintln(c.OutOrStdout(), countsLine(counts, b.out))
	}
	if err == nil && counts.Refused > 0 {
		return refusedError{counts.Refused, filepath.Join(b.out, "refused.csv")}
	}
	return err
}

// refusedError says that rows were refused and the others answered.
type refusedError struct {
	rows int
	file string
}

func (e refusedError) Error() string {
	if e.rows == 1 {
		return "one row was refused; " + e.file + " says why"
	}
	return fmt.Sprintf("%d rows were refused; %s says why", e.rows, e.file)
}

// request is the request for prices and counties of all operations, with the county book
// open: what it and the built-in tables have is read once the States of the table are known.
func (b *batchAsk) request(c *cobra.Command, q *question) (r source.Request, closeBook func(), err error) {
	if r, err = q.request(c); err != nil {
		return r, nil, err
	}
	r.ManyOperations, r.StatesLater, r.CountyFolder = true, true, b.countyFolder
	closeBook, err = q.openBook(&r)
	return r, closeBook, err
}

// parsePart reads "3/16"; "" is all.
func parsePart(text string) (part, parts int, err error) {
	if text == "" {
		return 0, 0, nil
	}
	one, all, found := strings.Cut(text, "/")
	part, bad := strconv.Atoi(one)
	parts, worse := strconv.Atoi(all)
	const most = 99
	if !found || bad != nil || worse != nil || part < 1 || part > parts || parts > most {
		return 0, 0, usageError{fmt.Sprintf("--part is %q", text), fmt.Sprintf("write it as 3/16, at most %d parts", most)}
	}
	return part, parts, nil
}
