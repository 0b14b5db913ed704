package main

import (
	"bytes"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/read/operation"
)

// stdinArg stands for standard input in place of a file.
const stdinArg = "-"

// mostInput is the most bytes of standard input that are read: as much as of a text file.
const mostInput = 16 << 20

// takeInput reads standard input where path asks for it, and returns the name under which
// its text is then found. Whether it is an operation file or a table its beginning says.
func (q *question) takeInput(c *cobra.Command, path string) (string, error) {
	if path != stdinArg {
		return path, nil
	}
	text, err := io.ReadAll(io.LimitReader(c.InOrStdin(), mostInput+1))
	switch {
	case err != nil:
		return "", usageError{"standard input cannot be read: " + err.Error(), "name a file instead of -"}
	case len(text) > mostInput:
		return "", usageError{fmt.Sprintf("standard input has more than %d bytes", mostInput), "name a file instead of -"}
	case bytes.HasPrefix(text, []byte("PK\x03\x04")) || bytes.HasPrefix(text, []byte("PAR1")):
		return "", usageError{"standard input is a workbook or a parquet file", "name the file instead of -, or give text such as .csv"}
	}
	q.given = disk.Given{Name: "standard input.csv", Text: text}
	if operation.Begins(text) {
		q.given.Name = "standard input.yaml"
	}
	return q.given.Name, nil
}
