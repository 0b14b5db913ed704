// Command difference compares the figures of two Parquet files of results: difference [-within X] BEFORE AFTER
// prints for each column that differs how many values do, the largest difference and the
// largest relative to the value, where both are numbers; other differences are counted alone.
// A line begins with MORE, and the exit code is 1, where other values differ, or numbers by more
// than X of the value or of 1.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"math"
	"os"

	"github.com/parquet-go/parquet-go"
)

func main() {
	log.SetFlags(0)
	within := flag.Float64("within", math.Inf(1), "the most that numbers may differ by, of the value or of 1")
	flag.Parse()
	if flag.NArg() != 2 {
		log.Fatal("usage: difference [-within X] BEFORE.parquet AFTER.parquet")
	}
	before, names, err := values(flag.Arg(0))
	if err != nil {
		log.Fatal(err)
	}
	after, _, err := values(flag.Arg(1))
	if err != nil {
		log.Fatal(err)
	}
	if len(before) != len(after) {
		log.Fatalf("%d columns and %d", len(before), len(after))
	}
	more := false
	for c := range before {
		more = compare(names[c], before[c], after[c], *within) || more
	}
	if more {
		os.Exit(1)
	}
}

func compare(name string, before, after []parquet.Value, within float64) (more bool) {
	if len(before) != len(after) {
		log.Fatalf("%s: %d values and %d", name, len(before), len(after))
	}
	differ, other, largest, relative := 0, 0, 0.0, 0.0
	for i, was := range before {
		now := after[i]
		switch {
		case parquet.Equal(was, now):
		case was.Kind() == parquet.Double && now.Kind() == parquet.Double:
			differ++
			off := math.Abs(was.Double() - now.Double())
			more = more || off > within*max(1, math.Abs(was.Double()))
			largest, relative = max(largest, off), max(relative, off/max(math.Abs(was.Double()), math.Abs(now.Double())))
		default:
			other++
			if other < 3 {
				fmt.Printf("%s: %v, %v\n", name, was, now)
			}
		}
	}
	if more = more || other > 0; more {
		fmt.Print("MORE: ")
	}
	if differ+other > 0 {
		fmt.Printf("%-32s %7d of %d numbers differ, by %.1e at most, %.1e of the value; %d others\n", name, differ, len(before), largest, relative, other)
	}
	return more
}

// values returns all values of a file by column.
func values(path string) (columns [][]parquet.Value, names []string, err error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer file.Close()
	reader := parquet.NewReader(file)
	defer reader.Close()
	for _, column := range reader.Schema().Columns() {
		names = append(names, column[0])
	}
	columns = make([][]parquet.Value, len(names))
	rows := make([]parquet.Row, 1000)
	for {
		n, err := reader.ReadRows(rows)
		for _, row := range rows[:n] {
			for _, v := range row {
				columns[v.Column()] = append(columns[v.Column()], v.Clone())
			}
		}
		if errors.Is(err, io.EOF) {
			return columns, names, nil
		}
		if err != nil {
			return nil, nil, err
		}
	}
}
