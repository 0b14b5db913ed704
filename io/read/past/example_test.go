package past_test

import (
	"errors"
	"fmt"
	"os"

	"fencerow/io/read/past"
)

// The agencies' tables of past years are read from a folder that people fill themselves; one
// that lacks files is reported. With them it returns what backtest.ScorePast takes.
func ExampleRead() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	_, err = past.Read(folder)
	fmt.Println(errors.Is(err, past.ErrMissing))
	// Output: true
}
