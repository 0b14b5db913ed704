package batch

import (
	"encoding/csv"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strconv"

	"fencerow/io/batch/calls"
	"fencerow/io/batch/columnar"
	"fencerow/io/batch/exceptions"
	"fencerow/io/batch/insured"
	"fencerow/io/batch/sorted"
	"fencerow/sim/parallel"
)

// origin is where the parts lie that are joined: one folder, or the shares of a run. The
// operations of each share stand in rising order.
type origin struct {
	shares []folder
	masked bool // numbers in place of names have no order: one share follows the other
}

// parts are the part files of a kind, of each share; where all follow each other, of all.
func (from origin) parts(kind, extension string) (all [][]string, err error) {
	for _, share := range from.shares {
		names, err := share.parts(kind, extension)
		if err != nil {
			return nil, err
		}
		if len(names) > 0 {
			all = append(all, names)
		}
	}
	if from.masked && len(all) > 1 {
		return [][]string{slices.Concat(all...)}, nil
	}
	return all, nil
}

// join writes the parts of each kind as one file in the folder, several at a time, and calls
// each with every result, one after the other.
func (f folder) join(from origin, each func(Result)) error {
	failures := make([]error, len(kinds))
	parallel.Do(len(kinds), func(i int) { failures[i] = f.joinKind(from, len(kinds)-1-i, each) }) // the results, which take longest, begin first
	return errors.Join(failures...)
}

// joinKind writes the parts of the kind at a place of kinds as one file.
func (f folder) joinKind(from origin, at int, each func(Result)) error {
	kind := kinds[at]
	parts, err := from.parts(kind.name, kind.extension)
	if err != nil || !kind.always && len(parts) == 0 {
		return err
	}
	joined := map[string]func(io.Writer, [][]string) error{
		"results.parquet": func(w io.Writer, parts [][]string) error { return columnar.Join(w, parts, Result.before, each) },
		"insurance.parquet": func(w io.Writer, parts [][]string) error {
			return columnar.Join(w, parts, insured.Line.Before, func(insured.Line) {})
		},
		"refused.csv": f.joinRefused, "exceptions.csv": f.joinExceptions, "calls.csv": f.joinCalls,
	}[kind.name+kind.extension]
	if joined == nil {
		joined = joinCSV
	}
	return f.whole(filepath.Join(f.path, kind.name+kind.extension), func(w io.Writer) error { return joined(w, parts) })
}

// joinCSV copies files one after the other, with the headings of the first alone; of several
// shares operation by operation.
func joinCSV(w io.Writer, shares [][]string) error {
	if len(shares) > 1 {
		return mergeCSV(w, shares)
	}
	return sorted.Copy(w, slices.Concat(shares...))
}

// joinRefused writes the refused rows in the order of the table.
func (f folder) joinRefused(w io.Writer, shares [][]string) error {
	rows := sorted.New(f.path)
	defer rows.Close()
	err := eachPart(shares, func(line []string) error {
		row, err := strconv.Atoi(line[0])
		if err != nil {
			return err
		}
		return rows.Add("", -float64(row), "", line)
	})
	if err != nil {
		return err
	}
	return writeLines(w, refusedColumns, rows.Each)
}

// joinExceptions writes the exceptions, the gravest and largest first.
func (f folder) joinExceptions(w io.Writer, shares [][]string) error {
	list := exceptions.NewList(f.path)
	defer list.Close()
	if err := eachPart(shares, list.Add); err != nil {
		return err
	}
	return writeLines(w, exceptions.Columns, list.Each)
}

// joinCalls writes a line for each person who signs, the most dollars first.
func (f folder) joinCalls(w io.Writer, shares [][]string) error {
	list := calls.NewList(f.path)
	defer list.Close()
	if err := eachPart(shares, list.Add); err != nil {
		return err
	}
	return writeLines(w, calls.Columns, list.Each)
}

// eachPart calls do with each line of part files.
func eachPart(shares [][]string, do func(line []string) error) error {
	for _, name := range slices.Concat(shares...) {
		if err := sorted.EachLine(name, func(_, line []string) error { return do(line) }); err != nil {
			return err
		}
	}
	return nil
}

// writeLines writes a file of lines that each gives.
func writeLines(w io.Writer, columns []string, each func(func([]string) error) error) error {
	out := csv.NewWriter(w)
	if err := out.Write(columns); err != nil {
		return err
	}
	if err := each(out.Write); err != nil {
		return err
	}
	out.Flush()
	return out.Error()
}
