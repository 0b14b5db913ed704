package batch

import (
	"cmp"
	"encoding/csv"
	"io"
	"os"
	"slices"

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
			return nil, nil, err
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

// before reports whether a line belongs to an operation before that of another.
func (r Result) before(other Result) bool {
	return cmp.Or(cmp.Compare(r.Client, other.Client), cmp.Compare(r.Operation, other.Operation)) < 0
}
