package brotli

import (
	"errors"
	"io"
)

// errNotRead is the error of everything here.
var errNotRead = errors.New("the columns are packed with Brotli, which is not read here: save the file with Snappy, Zstandard or no compression")

// Reader reads nothing.
type Reader struct{}

// NewReader returns a Reader.
func NewReader(io.Reader) *Reader { return &Reader{} }

// Read returns an error that says what to do.
func (*Reader) Read([]byte) (int, error) { return 0, errNotRead }

// Reset does nothing.
func (*Reader) Reset(io.Reader) error { return nil }

// WriterOptions are those of the replaced package.
type WriterOptions struct{ Quality, LGWin int }

// Writer writes nothing.
type Writer struct{}

// NewWriterOptions returns a Writer.
func NewWriterOptions(io.Writer, WriterOptions) *Writer { return &Writer{} }

// Write returns the error of Read.
func (*Writer) Write([]byte) (int, error) { return 0, errNotRead }

// Close does nothing.
func (*Writer) Close() error { return nil }

// Reset does nothing.
func (*Writer) Reset(io.Writer) {}
