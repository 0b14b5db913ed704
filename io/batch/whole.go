package batch

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// unfinishedEnding is on the names of files that are not whole.
const unfinishedEnding = ".unfinished"

// Whole writes a file whole or not at all: under another name beside it, renamed at
// the end. Its folder is made where it does not exist.
func Whole(path string, write func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	unfinished := path + unfinishedEnding
	file, err := os.Create(unfinished)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(file)
	err = write(out)
	if err == nil {
		err = out.Flush()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return os.Rename(unfinished, path)
}
