package sorted

import (
	"io"

	"fencerow/sim/parallel"
)

// filesAhead is how many files are read before their lines are asked for.
const filesAhead = 2

// Ahead returns files of lines that read gives whole, in order. The next ones are read on other
// cores meanwhile.
func Ahead[T any](names []string, read func(name string) ([]T, error)) *Files[T] {
	type reading struct {
		lines []T
		wait  func() error
	}
	var begun []*reading
	later := names
	open := func(string) (next func() (T, error), done func(), err error) {
		for len(later) > 0 && len(begun) <= filesAhead {
			one, name := &reading{}, later[0]
			one.wait = parallel.Start(func() (err error) { one.lines, err = read(name); return err })
			begun, later = append(begun, one), later[1:]
		}
		now := begun[0]
		begun = begun[1:]
		err = now.wait()
		lines := now.lines
		return func() (line T, err error) {
			if len(lines) == 0 {
				return line, io.EOF
			}
			line, lines = lines[0], lines[1:]
			return line, nil
		}, func() {}, err
	}
	return &Files[T]{Names: names, Open: open}
}
