package sorted

import (
	"encoding/csv"
	"fmt"
	"io"
	"os"
)

// EachLine calls do with each line of a CSV file and the columns that its first line names.
func EachLine(path string, do func(columns, cells []string) error) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	in := csv.NewReader(file)
	columns, err := in.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	for {
		cells, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err == nil {
			err = do(columns, cells)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
	}
}
