package sorted

import (
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

// Merge calls do with the lines of all files in rising order; of equals with those of the
// first.
func Merge[T any](all []*Files[T], before func(a, b T) bool, do func(T) error) error {
	var open []*Files[T]
	defer func() {
		for _, s := range open {
			if s.next != nil {
				s.done()
			}
		}
	}()
	for _, s := range all {
		switch err := s.advance(); err {
		case nil:
			open = append(open, s)
		case io.EOF:
		default:
			return err
		}
	}
	for len(open) > 0 {
		first := 0
		for i := range open {
			if before(open[i].now, open[first].now) {
				first = i
			}
		}
		if err := do(open[first].now); err != nil {
			return err
		}
		switch err := open[first].advance(); err {
		case nil:
		case io.EOF:
			open = append(open[:first:first], open[first+1:]...)
		default:
			return err
		}
	}
	return nil
}
