package sorted

import (
	"container/heap"
	"fmt"
	"io"
)

// Files are files of lines in order, one after the other.
type Files[T any] struct {
	Names []string
	Open  func(name string) (next func() (T, error), done func(), err error)
	next  func() (T, error)
	done  func()
	now   T
	at    int // its place among all
}

// advance sets now to the next line; io.EOF after the last.
func (s *Files[T]) advance() error {
	for {
		if s.next != nil {
			one, err := s.next()
			if err == nil {
				s.now = one
				return nil
			}
			s.done()
			s.next = nil
			if err != io.EOF {
				return fmt.Errorf("%s: %w", s.Names[0], err)
			}
			s.Names = s.Names[1:]
		}
		if len(s.Names) == 0 {
			return io.EOF
		}
		var err error
		if s.next, s.done, err = s.Open(s.Names[0]); err != nil {
			return fmt.Errorf("%s: %w", s.Names[0], err)
		}
	}
}

// heads are files by their next line, as a heap: the first line of all comes first, of equals
// that of the file named earlier.
type heads[T any] struct {
	files  []*Files[T]
	before func(a, b T) bool
}

// Len is how many files have a line left.
func (h *heads[T]) Len() int { return len(h.files) }

// Swap changes the places of two files.
func (h *heads[T]) Swap(i, k int) { h.files[i], h.files[k] = h.files[k], h.files[i] }

// Less reports whether the line of one file comes before that of another.
func (h *heads[T]) Less(i, k int) bool {
	a, b := h.files[i], h.files[k]
	return h.before(a.now, b.now) || !h.before(b.now, a.now) && a.at < b.at
}

// Push adds a file.
func (h *heads[T]) Push(file any) { h.files = append(h.files, file.(*Files[T])) }

// Pop takes the last file away.
func (h *heads[T]) Pop() any {
	last := h.files[len(h.files)-1]
	h.files = h.files[:len(h.files)-1]
	return last
}

// Merge calls do with the lines of all files in rising order; of equals with those of the
// first.
func Merge[T any](all []*Files[T], before func(a, b T) bool, do func(T) error) error {
	open := &heads[T]{before: before}
	defer func() {
		for _, s := range open.files {
			if s.next != nil {
				s.done()
			}
		}
	}()
	for i, s := range all {
		s.at = i
		switch err := s.advance(); err {
		case nil:
			open.Push(s)
		case io.EOF:
		default:
			return err
		}
	}
	heap.Init(open)
	for open.Len() > 0 {
		first := open.files[0]
		if err := do(first.now); err != nil {
			return err
		}
		switch err := first.advance(); err {
		case nil:
			heap.Fix(open, 0)
		case io.EOF:
			heap.Pop(open)
		default:
			return err
		}
	}
	return nil
}
