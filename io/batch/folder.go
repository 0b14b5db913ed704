package batch

import (
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/batch/calls"
	"fencerow/io/batch/columnar"
	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/insured"
	"fencerow/io/file"
)

// folder is where a run writes. Each part has a file of each kind; its results are
// written last, so that a part with results is whole.
type folder struct {
	path  string
	share string // of the operations, "03of16-"; "" for all
	files *file.Run
}

// folder returns where this run writes; it refuses to write over the inputs.
func (o Options) folder() folder {
	inputs := []string{o.Table}
	for _, input := range o.Inputs {
		inputs = append(inputs, input.Path)
	}
	return folder{o.Out, o.share(), file.NewRun(inputs...)}
}

// check returns an error where a joined file cannot be written; it is asked before
// anything is computed.
func (f folder) check() error {
	names := f.joined()
	for i, name := range names {
		names[i] = filepath.Join(f.path, name)
	}
	return f.files.Check(names...)
}

// joined names the files that a run writes beside its parts.
func (f folder) joined() []string {
	names := []string{"counties.csv", "summary.xlsx", f.audit()}
	for _, kind := range kinds {
		names = append(names, kind.name+kind.extension)
	}
	return names
}

// audit names the file with the inputs and totals of the run.
func (f folder) audit() string { return strings.TrimSuffix("run-"+f.share, "-") + ".json" }

// whole writes a file whole or not at all. Its folder is made where it does not exist.
func (f folder) whole(path string, write func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return f.files.Write(path, write)
}

// kinds are the folders of part files, with their column headings, in the order in
// which a part writes them. A kind that is not written always is left out where it has
// no lines.
var kinds = []struct {
	name, extension string
	columns         []string
	always          bool
}{
	{"refused", ".csv", refusedColumns, true}, {"people", ".csv", personColumns, true}, {"operations", ".csv", operationColumns, true}, {"farms", ".csv", farmColumns, true},
	{"programs", ".csv", furtherColumns, false}, {"exceptions", ".csv", exceptions.Columns, true}, {"calls", ".csv", calls.OperationColumns, true},
	{"insurance", ".csv", insured.Columns, false}, {"insurance", ".parquet", nil, false},
	{"results", ".parquet", nil, true}, {"results", ".csv", resultColumns, true},
}

// file names a part's file of a kind.
func (f folder) file(kind, extension string, part int) string {
	return filepath.Join(f.path, kind, fmt.Sprintf("part-%s%05d%s", f.share, part, extension))
}

// done reports whether a part is whole.
func (f folder) done(part int) bool {
	_, err := os.Stat(f.file("results", ".csv", part))
	return err == nil
}

// write writes the files of one part; the writers are used again for one part after the other.
func (f folder) write(part int, b partResults, packed *packed) error {
	lines := map[string][][]string{}
	for _, r := range b.refused {
		lines["refused.csv"] = append(lines["refused.csv"], []string{strconv.Itoa(r.Line), r.Column, r.Cell(), r.Reason, r.Hint})
	}
	for _, p := range b.people {
		lines["people.csv"] = append(lines["people.csv"], p.record())
	}
	for _, o := range b.operations {
		lines["operations.csv"] = append(lines["operations.csv"], o.record())
	}
	for _, one := range b.farms {
		lines["farms.csv"] = append(lines["farms.csv"], one.record())
	}
	for _, one := range b.further {
		lines["programs.csv"] = append(lines["programs.csv"], one.record())
	}
	for _, one := range b.exceptions {
		lines["exceptions.csv"] = append(lines["exceptions.csv"], one.Record())
	}
	for _, one := range b.calls {
		lines["calls.csv"] = append(lines["calls.csv"], one.Record())
	}
	for _, one := range b.insured {
		lines["insurance.csv"] = append(lines["insurance.csv"], one.Record())
	}
	for _, r := range b.results {
		lines["results.csv"] = append(lines["results.csv"], r.record())
	}
	for _, kind := range kinds {
		if !kind.always && len(lines[kind.name+".csv"]) == 0 {
			continue
		}
		path := f.file(kind.name, kind.extension, part)
		err := f.whole(path, func(w io.Writer) error {
			switch kind.name + kind.extension {
			case "results.parquet":
				return packed.results.Write(w, b.results)
			case "insurance.parquet":
				return packed.insured.Write(w, b.insured)
			}
			return writeCSV(w, kind.columns, lines[kind.name+kind.extension])
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// packed writes lines as Parquet files.
type packed struct {
	results columnar.Writer[Result]
	insured columnar.Writer[insured.Line]
}

func writeCSV(w io.Writer, columns []string, lines [][]string) error {
	out := csv.NewWriter(w)
	if err := out.Write(columns); err != nil {
		return err
	}
	return out.WriteAll(lines)
}

// parts lists the part files of a kind in their order: of this share, or of all.
func (f folder) parts(kind, extension string) ([]string, error) {
	names, err := filepath.Glob(filepath.Join(f.path, kind, "part-"+f.share+"*"+extension))
	slices.Sort(names)
	return names, err
}
