package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/read/document"
	"fencerow/io/read/operation"
)

// stdinArg stands for standard input in place of a file.
const stdinArg = "-"

// takeInput reads standard input where path asks for it, and returns the name under which
// its text is then found. Whether it is an operation file or a table its beginning says.
func (q *question) takeInput(c *cobra.Command, path string) (string, error) {
	if path != stdinArg {
		return path, nil
	}
	text, large, err := document.ReadAll(c.InOrStdin())
	switch {
	case err != nil:
		return "", usageError{"standard input cannot be read: " + err.Error(), "name a file instead of -"}
	case large:
		return "", usageError{fmt.Sprintf("standard input has more than %d bytes", document.MostBytes), "name a file instead of -"}
	case bytes.HasPrefix(text, []byte("PK\x03\x04")) || bytes.HasPrefix(text, []byte("PAR1")):
		return "", usageError{"standard input is a workbook or a parquet file", "name the file instead of -, or give text such as .csv"}
	}
	q.given = disk.Given{Name: "standard input.csv", Text: text}
	if operation.Begins(text) {
		q.given.Name = "standard input.yaml"
	}
	return q.given.Name, nil
}
