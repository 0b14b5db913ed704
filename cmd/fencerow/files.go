package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"fencerow/io/batch"
)

// writeFile writes a file whole or not at all, into a folder that exists.
func writeFile(path string, write func(io.Writer) error) error {
	hint := "name a file in a folder that exists and may be written"
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return usageError{"cannot write " + path + ": " + err.Error(), hint}
	}
	err := batch.Whole(path, write)
	var place *fs.PathError
	if errors.As(err, &place) {
		return usageError{"cannot write " + path + ": " + place.Err.Error(), hint}
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}
