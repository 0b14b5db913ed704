package disk_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing/fstest"

	"fencerow/io/disk"
)

// Files of the disk by the names that people write; what is built in goes before them.
func ExampleFiles() {
	files := disk.Files{BuiltIn: fstest.MapFS{"demo.yaml": {Data: []byte("built in")}}}
	text, err := fs.ReadFile(files, "demo.yaml")
	fmt.Println(string(text), files.Has("mine.yaml"), err)
	// Output: built in false <nil>
}

// The county book of a name is made where it does not exist; "none" is none, and no error.
func ExampleOpenBook() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	none, err := disk.OpenBook(disk.NoBook, false)
	fmt.Println(none == nil, err)
	b, err := disk.OpenBook(filepath.Join(folder, "counties.db"), true)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(filepath.Base(b.Path()), b.Close())
	// Output:
	// true <nil>
	// counties.db <nil>
}
