package columnar

import (
	"io"
	"sync"

	"github.com/parquet-go/parquet-go"
)

// Writer writes lines as Parquet files, one after the other in the same memory: of very many
// small files the pages of each column would be most of what a run throws away. The same lines
// give the same bytes. Several goroutines may use it; its zero value is ready.
type Writer[T any] struct {
	mutex sync.Mutex
	out   *parquet.GenericWriter[T]
	blank []T
}

// Write writes one whole file.
func (r *Writer[T]) Write(w io.Writer, lines []T) error {
	r.mutex.Lock()
	defer r.mutex.Unlock()
	if r.out == nil {
		r.out = parquet.NewGenericWriter[T](w, parquet.Compression(&parquet.Snappy))
	} else if err := r.wipe(w); err != nil {
		return err
	}
	if more := len(lines) + bitsOfByte - len(r.blank); more > 0 {
		r.blank = append(r.blank, make([]T, more)...)
	}
	if _, err := r.out.Write(lines); err != nil {
		return err
	}
	return r.out.Close()
}

// wipe turns to the next file. The library packs true and false as bits and writes the last
// byte whole: without blank lines before, it would hold bits of the file written last, and the
// same lines would not give the same bytes.
func (r *Writer[T]) wipe(w io.Writer) error {
	r.out.Reset(io.Discard)
	_, err := r.out.Write(r.blank)
	r.out.Reset(w)
	return err
}

// bitsOfByte is how many lines a byte of a column of true and false holds.
const bitsOfByte = 8
