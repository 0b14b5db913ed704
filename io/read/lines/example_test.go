package lines_test

import (
	"errors"
	"fmt"
	"io/fs"

	"fencerow/io/read/lines"
	"fencerow/program/farm"
)

// A reader of another kind of file refuses it as the readers here do: what, where, which
// value, what to do.
func ExampleRefuse() {
	err := error(lines.Refuse("farms.ods", ".ods", "is no kind of table that is read", "save it as .xlsx"))
	var mistakes farm.Mistakes
	fmt.Println(errors.As(err, &mistakes), mistakes[0].File, mistakes[0].Hint)
	// Output: true farms.ods save it as .xlsx
}

// A file that cannot be opened is named once.
func ExampleUnreadable() {
	mistakes := lines.Unreadable("farms.csv", &fs.PathError{Op: "open", Path: "farms.csv", Err: fs.ErrNotExist})
	fmt.Println(mistakes[0].File, mistakes[0].Reason)
	// Output: farms.csv cannot be read: file does not exist
}
