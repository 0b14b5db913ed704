package batch

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/parquet-go/parquet-go"

	"fencerow/io/batch/sorted"
)

// mergeCSV writes the lines of several shares, whose first two columns name client and
// operation, under the headings of the first file.
func mergeCSV(w io.Writer, shares [][]string) error {
	out := csv.NewWriter(w)
	var heads []string
	open := func(name string) (func() ([]string, error), func(), error) {
		file, err := os.Open(name)
		if err != nil {
			return nil, nil, err
		}
		in := csv.NewReader(file)
		line, err := in.Read()
		if err != nil {
			file.Close()
			return nil, nil, fmt.Errorf("%s: %w", name, err)
		}
		if heads == nil {
			heads = line
			err = out.Write(heads)
		}
		return in.Read, func() { file.Close() }, err
	}
	var all []*sorted.Files[[]string]
	for _, names := range shares {
		all = append(all, &sorted.Files[[]string]{Names: names, Open: open})
	}
	if err := sorted.Merge(all, func(a, b []string) bool { return slices.Compare(a[:2], b[:2]) < 0 }, out.Write); err != nil {
		return err
	}
	out.Flush()
	return out.Error()
}

// eachMerged calls do with the results in the Parquet files of several shares.
func eachMerged(shares [][]string, do func(Result) error) error {
	open := func(name string) (func() (Result, error), func(), error) {
		file, err := os.Open(name)
		if err != nil {
			return nil, nil, err
		}
		in := parquet.NewGenericReader[Result](file)
		var held []Result
		next := func() (Result, error) {
			for len(held) == 0 {
				some := make([]Result, batchRows) // new ones: the reader writes over what pointers of the last ones point to
				n, err := in.Read(some)
				if n == 0 && err != nil {
					return Result{}, err
				}
				held = some[:n]
			}
			one := held[0]
			held = held[1:]
			return one, nil
		}
		return next, func() { in.Close(); file.Close() }, nil
	}
	var all []*sorted.Files[Result]
	for _, names := range shares {
		all = append(all, &sorted.Files[Result]{Names: names, Open: open})
	}
	return sorted.Merge(all, func(a, b Result) bool {
		return cmp.Or(cmp.Compare(a.Client, b.Client), cmp.Compare(a.Operation, b.Operation)) < 0
	}, do)
}
