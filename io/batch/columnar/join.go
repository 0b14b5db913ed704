package columnar

import (
	"cmp"
	"io"
	"os"

	"github.com/parquet-go/parquet-go"

	"fencerow/io/batch/sorted"
)

// batchRows is how many lines are handed to a Parquet file at once: always the same, so that
// the same lines give the same bytes.
const batchRows = 512

// rowGroup is how many lines of a joined file are held in memory at once.
const rowGroup = 50_000

// Join copies the lines of all files into one, and calls each with every line. Files of a share
// follow each other; of several shares the lines are merged in rising order.
func Join[T any](w io.Writer, shares [][]string, before func(a, b T) bool, each func(T)) error {
	out := parquet.NewGenericWriter[T](w, parquet.Compression(&parquet.Snappy), parquet.MaxRowsPerRowGroup(rowGroup))
	some := make([]T, 0, batchRows)
	add := func(line T) error {
		each(line)
		if some = append(some, line); len(some) < batchRows {
			return nil
		}
		_, err := out.Write(some)
		some = some[:0]
		return err
	}
	var all []*sorted.Files[T]
	for _, names := range shares {
		all = append(all, sorted.Ahead(names, linesIn[T]))
	}
	if err := sorted.Merge(all, before, add); err != nil {
		return err
	}
	if _, err := out.Write(some); err != nil {
		return err
	}
	return out.Close()
}

// linesIn reads a file, small as the part of a run is.
func linesIn[T any](name string) ([]T, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	in := parquet.NewGenericReader[T](file)
	defer in.Close()
	all := make([]T, in.NumRows())
	for at := 0; at < len(all); {
		n, err := in.Read(all[at:min(at+batchRows, len(all))])
		if n == 0 {
			return nil, cmp.Or(err, io.ErrUnexpectedEOF)
		}
		at += n
	}
	return all, nil
}
