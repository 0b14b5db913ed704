package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// writeFile writes a file whole or not at all: under another name beside it, renamed
// at the end.
func writeFile(path string, write func(io.Writer) error) error {
	file, err := os.CreateTemp(filepath.Dir(path), ".fencerow-*")
	if err != nil {
		return usageError{"cannot write " + path + ": " + err.Error(), "name a file in a folder that exists and may be written"}
	}
	defer os.Remove(file.Name()) // nothing is left of it once it is renamed
	out := bufio.NewWriter(file)
	err = write(out)
	if err == nil {
		err = out.Flush()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Chmod(file.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(file.Name(), path)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}
