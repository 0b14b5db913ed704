package past

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"time"

	"fencerow/io/read/lines"
)

// row is one line of a table, by the names of its columns.
type row struct {
	file   string
	line   int
	place  map[string]int
	cells  []string
	failed *error
}

// eachRow hands every line of a CSV file, packed or not, to take. The first row
// names the columns.
func eachRow(path string, take func(row) error) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	var plain io.Reader = file
	if strings.HasSuffix(path, ".gz") {
		if plain, err = lines.Unpack(file); err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
	}
	reader := csv.NewReader(plain)
	reader.ReuseRecord = true
	header, err := reader.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	place := map[string]int{}
	for i, name := range header {
		place[strings.Clone(name)] = i
	}
	for line := 2; ; line++ {
		cells, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		var failed error
		if err := take(row{path, line, place, cells, &failed}); err != nil {
			return err
		}
	}
}

// text returns a cell, "" where the table has no such column.
func (r row) text(column string) string {
	i, has := r.place[column]
	if !has {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

// figure returns a cell as a number; err tells of one that is none.
func (r row) figure(column string) float64 { return r.parse(column, r.text(column)) }

func (r row) parse(column, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		r.fail(column, text, "not a number")
	}
	return x
}

func (r row) date(column string) time.Time {
	day, err := time.Parse(time.DateOnly, r.text(column))
	if err != nil {
		r.fail(column, r.text(column), "not a date")
	}
	return day
}

func (r row) fail(column, text, why string) {
	if *r.failed == nil {
		*r.failed = fmt.Errorf("%s line %d: %s is %q, %s", r.file, r.line, column, text, why)
	}
}

func (r row) err() error { return *r.failed }
