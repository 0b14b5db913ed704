package batch

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fencerow/io/file"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/odds"
)

// audit is run.json: the inputs, settings and totals of a run. It holds no data of a
// farm and no time of day, so that the same run writes the same bytes.
type audit struct {
	Format    string  `json:"format"` // fencerow/run/2
	Version   string  `json:"version"`
	Today     string  `json:"today"`
	CropYears []int   `json:"crop_years"` // none: those of the rows
	Seed      uint64  `json:"seed"`
	Draws     int     `json:"draws"`
	Market    string  `json:"market_as_of"`
	Source    string  `json:"market_source"`
	Close     float64 `json:"close_margin"` // USD per base acre
	Least     int     `json:"least"`
	EachAlone bool    `json:"each_farm_alone"`               // the table names nobody: no limit is applied across farms
	Several   *int    `json:"persons_in_several_operations"` // null until the run has ended
	Part      string  `json:"part"`                          // "3/16", "" for all
	Masked    bool    `json:"masked"`
	NoTables  bool    `json:"without_built_in_tables,omitempty"`
	Insured   bool    `json:"with_insurance,omitempty"`
	Table     Input   `json:"table"`
	Inputs    []Input `json:"inputs"`
	Counts    *Counts `json:"counts"` // null until the run has ended
}

// AuditFormat names the JSON of run.json.
const AuditFormat = "fencerow/run/2"

func (o Options) audit(found tableFacts) (audit, error) {
	table, err := checksum(o.Files.Open, "table of farms", o.Table)
	if err != nil {
		return audit{}, err
	}
	a := audit{
		Format: AuditFormat, Version: o.Version, Today: o.Question.Today.Format(time.DateOnly), CropYears: append([]int{}, o.Question.CropYears...), Seed: o.Question.Seed,
		Draws: odds.NewScenarios(o.Question.Seed, o.Question.Draws).N(), Market: o.Question.Market.AsOf.Format(time.DateOnly), Source: o.Question.Market.Source,
		Close: answer.DefaultCloseMargin, Least: o.Least, EachAlone: found.eachAlone, NoTables: o.NoTables, Insured: o.Insured, Masked: o.Mask, Table: table, Inputs: append([]Input{}, o.Inputs...),
	}
	if margin := o.Question.Operation.Settings.CloseMargin; margin != nil {
		a.Close = *margin
	}
	if o.Mask { // a folder may be named after a client
		a.Table.Path = a.Table.Name
		for i := range a.Inputs {
			a.Inputs[i].Path = a.Inputs[i].Name
		}
	}
	if o.Part > 0 {
		a.Part = fmt.Sprintf("%d/%d", o.Part, o.Parts)
	}
	return a, nil
}

// onDisk opens a file of the disk.
func onDisk(path string) (fs.File, error) { return os.Open(path) }

// checksum returns a file as an Input; what is its use in the run.
func checksum(open func(string) (fs.File, error), what, path string) (Input, error) {
	in, err := open(path)
	if err != nil {
		return Input{}, err
	}
	defer in.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, in); err != nil {
		return Input{}, err
	}
	return Input{what, filepath.Base(path), filepath.ToSlash(path), hex.EncodeToString(hash.Sum(nil))}, nil
}

// checksumOfAll returns a folder as one Input: the SHA-256 of the checksums of its
// files, each on a line, in the order of paths.
func checksumOfAll(what, folder string, paths []string) (Input, error) {
	hash := sha256.New()
	for _, path := range paths {
		one, err := checksum(onDisk, what, path)
		if err != nil {
			return Input{}, err
		}
		fmt.Fprintln(hash, one.SHA256)
	}
	return Input{what, filepath.Base(folder), filepath.ToSlash(folder), hex.EncodeToString(hash.Sum(nil))}, nil
}

// Inputs returns the files behind a question with their checksums; a folder counts as
// one.
func Inputs(named []source.Input) (all []Input, err error) {
	for _, one := range named {
		sum := func() (Input, error) { return checksum(onDisk, one.What, one.Name) }
		if one.Files != nil {
			sum = func() (Input, error) { return checksumOfAll(one.What, one.Name, one.Files) }
		}
		input, failed := sum()
		all, err = append(all, input), errors.Join(err, failed)
	}
	return all, err
}

// ErrOtherRun means that the folder holds parts of a run on other input or with other
// settings.
var ErrOtherRun = errors.New("the folder holds another run")

// ErrNotEmpty means that the folder holds parts and Options.Resume is not set.
var ErrNotEmpty = errors.New("the folder holds results already")

// begin writes down what the run is; where parts are there already it first checks
// that they are of the same run.
func (o Options) begin(f folder, a audit) error {
	path := filepath.Join(f.path, "counts", "run-"+f.share+"begun.json")
	begun, err := json.MarshalIndent(a, "", "  ")
	if err != nil {
		return err
	}
	if text, err := os.ReadFile(path); err == nil {
		var before audit
		if !o.Resume {
			return ErrNotEmpty
		}
		if err := json.Unmarshal(text, &before); err != nil {
			return fmt.Errorf("%w: %s cannot be read (%v)", ErrOtherRun, path, err)
		}
		if before.Format != AuditFormat {
			return fmt.Errorf("%w: %s has the format %q, and this version of fencerow goes on with %s", ErrOtherRun, path, before.Format, AuditFormat)
		}
		if what := a.differs(before); what != "" {
			return fmt.Errorf("%w: %s", ErrOtherRun, what)
		}
	}
	f.sweep()
	return f.whole(path, func(w io.Writer) error { _, err := w.Write(begun); return err })
}

// sweep removes unfinished files that an interrupted run of this share left. Other
// shares may be at work in the same folder.
func (f folder) sweep() {
	mine := "*" + strings.TrimSuffix(f.share, "-") + "*" + file.Ending
	for _, pattern := range []string{".sorting-" + f.share + "*", filepath.Join("*", mine), mine} {
		names, _ := filepath.Glob(filepath.Join(f.path, pattern)) // the pattern is sound
		for _, name := range names {
			os.RemoveAll(name)
		}
	}
}

// finish joins and sums up the parts and writes the audit. A run of one share writes
// its audit alone.
func (o Options) finish(f folder, a audit, counts Counts) error {
	a.Counts = &counts
	if o.Part == 0 {
		if err := f.joinAndSum(origin{shares: []folder{f}, masked: a.Masked}, a); err != nil {
			return err
		}
	}
	return f.writeAudit(a)
}

// writeAudit writes run.json, or that of a share.
func (f folder) writeAudit(a audit) error {
	return f.whole(filepath.Join(f.path, f.audit()), func(w io.Writer) error {
		out := json.NewEncoder(w)
		out.SetIndent("", "  ")
		return out.Encode(a)
	})
}
