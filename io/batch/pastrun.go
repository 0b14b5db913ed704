package batch

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"fencerow/io/batch/kept"
	"fencerow/io/read/farmtable"
	"fencerow/io/source"
	"fencerow/program/farm"
)

// pastRun is the folder of a run that has ended, with what its answers rest on.
type pastRun struct {
	folder
	audit
	used kept.Figures
	rows Options // reads its table
}

// openRun opens the folder of a run. table is where its table lies now, "" where run.json
// says. The error is farm.Mistakes where the folder or a file is not as the run left it.
func (o DiffOptions) openRun(path, table, flag string) (*pastRun, error) {
	r := &pastRun{folder: folder{path: path}}
	if err := r.readAudit(); err != nil {
		return nil, err
	}
	var err error
	if r.used, err = kept.Read(path); err != nil {
		return nil, mistake(path, "its folder figures cannot be read: "+err.Error(), "run the table again with this version of fencerow")
	}
	if table == "" {
		table = r.Table.Path
	}
	found, err := checksum(o.Files.Open, r.Table.What, table)
	switch {
	case err != nil:
		return nil, mistake(table, fmt.Sprintf("the table of %s cannot be read: %s", path, err), "say where it lies with "+flag)
	case found.SHA256 != r.Table.SHA256:
		return nil, mistake(table, "is not the table that "+path+" was made from; its checksum differs", "say where the old table lies with "+flag)
	}
	r.rows = Options{Files: o.Files, Tables: o.Tables, Table: table, County: source.CountyNames(r.used.Counties), Insured: r.Insured}
	r.rows.Question.CropYears = r.CropYears
	r.rows.Columns, err = r.columns(o.Files)
	return r, err
}

// mistake is one mistake of a file or folder.
func mistake(name, reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: name, Reason: reason, Hint: hint}}
}

func (r *pastRun) readAudit() error {
	text, err := os.ReadFile(filepath.Join(r.path, r.folder.audit()))
	if shares, _ := filepath.Glob(filepath.Join(r.path, "run-*.json")); err != nil && len(shares) > 0 {
		return mistake(r.path, "holds shares of a run, which cannot be compared", "answer the table without --part")
	}
	if err != nil {
		return mistake(r.path, "holds no run.json, so it is not the folder of a batch that has ended", "name a folder that fencerow batch wrote")
	}
	if err := json.Unmarshal(text, &r.audit); err != nil {
		return mistake(r.path, "its run.json cannot be read: "+err.Error(), "run the table again")
	}
	switch {
	case r.Format != AuditFormat:
		return mistake(r.path, fmt.Sprintf("has the format %q, and this version of fencerow reads %s", r.Format, AuditFormat), "run the table again with this version")
	case r.Masked:
		return mistake(r.path, "was made with --mask, so its farms cannot be found in a table", "run the table again without --mask")
	}
	return nil
}

// columns reads the columns file of the run, where it had one.
func (r *pastRun) columns(files fs.FS) (none farmtable.Profile, err error) {
	for _, input := range r.Inputs {
		if input.What != "columns file" {
			continue
		}
		found, err := checksum(files.Open, input.What, input.Path)
		if err != nil || found.SHA256 != input.SHA256 {
			return none, mistake(input.Path, "is missing or not the columns file that "+r.path+" was made with", "put that file back")
		}
		text, err := fs.ReadFile(files, input.Path)
		if err != nil {
			return none, err
		}
		return farmtable.ParseProfile(input.Path, text)
	}
	return none, nil
}

// day is the day on which the run was asked.
func (r *pastRun) day() (time.Time, error) { return time.Parse(time.DateOnly, r.Today) }

// recordedLines are the lines of one operation in the results of a run.
type recordedLines struct {
	client, operation string
	lines             map[lineKey]resultLine
	order             []lineKey
}

// resultLine is a line of results.csv as it was written.
type resultLine []string

// of returns a column as it was written.
func (l resultLine) of(column string) string {
	if at, has := resultColumn[column]; has && at < len(l) {
		return l[at]
	}
	return ""
}

// resultColumn is the place of each column of results.csv.
var resultColumn = func() map[string]int {
	places := map[string]int{}
	for i, name := range resultColumns {
		places[name] = i
	}
	return places
}()

// lineKey is a line of an operation.
type lineKey struct{ farm, commodity, cropYear string }

func (l resultLine) key() lineKey {
	return lineKey{l.of("farm"), l.of("commodity"), l.of("crop_year")}
}

// eachRecorded calls do with each operation of the results, in rising order: those of the
// parts, else those of results.csv.
func (r *pastRun) eachRecorded(do func(recordedLines) error) error {
	names, err := r.parts("results", ".csv")
	if err != nil {
		return err
	}
	if len(names) == 0 {
		names = []string{filepath.Join(r.path, "results.csv")}
	}
	var now recordedLines
	take := func(line resultLine) error {
		client, operation := line.of("client"), line.of("operation")
		if len(now.order) > 0 && (now.client != client || now.operation != operation) {
			if err := do(now); err != nil {
				return err
			}
			now = recordedLines{}
		}
		if now.lines == nil {
			now = recordedLines{client: client, operation: operation, lines: map[lineKey]resultLine{}}
		}
		now.lines[line.key()], now.order = line, append(now.order, line.key())
		return nil
	}
	for _, name := range names {
		if err := eachResultLine(name, take); err != nil {
			return err
		}
	}
	if len(now.order) == 0 {
		return nil
	}
	return do(now)
}

// firstColumns is how many columns results.csv had when folders could first be compared. Others
// were added at its end.
const firstColumns = 32

// eachResultLine calls do with each line of a file of results. Another version may have
// fewer or more columns at its end.
func eachResultLine(name string, do func(resultLine) error) error {
	in, err := os.Open(name)
	if err != nil {
		return mistake(name, "cannot be read: "+err.Error(), "name a folder that fencerow batch wrote")
	}
	defer in.Close()
	rows := csv.NewReader(in)
	heads, err := rows.Read()
	if both := min(len(heads), len(resultColumns)); err != nil || both < firstColumns || !slices.Equal(heads[:both], resultColumns[:both]) {
		return mistake(name, "has other columns than this version of fencerow writes", "run the table again with this version")
	}
	for {
		line, err := rows.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return mistake(name, err.Error(), "run the table again")
		}
		if err := do(line); err != nil {
			return err
		}
	}
}
