package columnar

import (
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
		all = append(all, &sorted.Files[T]{Names: names, Open: open[T]})
	}
	if err := sorted.Merge(all, before, add); err != nil {
		return err
	}
	if _, err := out.Write(some); err != nil {
		return err
	}
	return out.Close()
}

// open opens a file for reading line by line.
func open[T any](name string) (next func() (T, error), done func(), err error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, nil, err
	}
	in := parquet.NewGenericReader[T](file)
	var held []T
	next = func() (one T, err error) {
		for len(held) == 0 {
			some := make([]T, batchRows) // new ones: the reader writes over what pointers of the last ones point to
			n, err := in.Read(some)
			if n == 0 && err != nil {
				return one, err
			}
			held = some[:n]
		}
		one, held = held[0], held[1:]
		return one, nil
	}
	return next, func() { in.Close(); file.Close() }, nil
}
