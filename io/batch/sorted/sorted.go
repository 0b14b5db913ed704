package sorted

import (
	"cmp"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
)

// inMemory is how many lines are held in memory at once: some 8 MB.
const inMemory = 10_000

// Lines are lines in the order of their keys: by text, then the highest number first, then by
// a second text, then as they were added.
type Lines struct {
	folder string // for files that are thrown away again
	most   int    // in memory
	held   []line
	files  []string
	own    string // folder of the files; "": none yet
}

// line is a line with its key.
type line struct {
	text   string
	number float64
	then   string
	cells  []string
}

// New returns no lines yet; files that they may need lie in a folder of their own under
// folder.
func New(folder string) *Lines { return &Lines{folder: folder, most: inMemory} }

// Add adds a line with its key.
func (l *Lines) Add(text string, number float64, then string, cells []string) error {
	l.held = append(l.held, line{text, number, then, cells})
	if len(l.held) < l.most {
		return nil
	}
	return l.putAway()
}

func before(a, b line) int {
	return cmp.Or(cmp.Compare(a.text, b.text), cmp.Compare(b.number, a.number), cmp.Compare(a.then, b.then))
}

// putAway writes the lines in memory to a file, in order.
func (l *Lines) putAway() error {
	if l.own == "" {
		var err error
		if l.own, err = os.MkdirTemp(l.folder, ".sorting-*"); err != nil {
			return err
		}
	}
	slices.SortStableFunc(l.held, before)
	name := filepath.Join(l.own, strconv.Itoa(len(l.files)))
	file, err := os.Create(name)
	if err != nil {
		return err
	}
	defer file.Close()
	out := csv.NewWriter(file)
	for _, one := range l.held {
		if err := out.Write(append([]string{one.text, strconv.FormatFloat(one.number, 'g', -1, 64), one.then}, one.cells...)); err != nil {
			return err
		}
	}
	out.Flush()
	l.held, l.files = l.held[:0], append(l.files, name)
	return out.Error()
}

// Each calls do with each line in order.
func (l *Lines) Each(do func(cells []string) error) error {
	slices.SortStableFunc(l.held, before)
	if len(l.files) == 0 {
		for _, one := range l.held {
			if err := do(one.cells); err != nil {
				return err
			}
		}
		return nil
	}
	var all []*Files[line]
	for _, name := range l.files {
		all = append(all, &Files[line]{Names: []string{name}, Open: openSorted})
	}
	all = append(all, Ahead([]string{"memory"}, func(string) ([]line, error) { return l.held, nil }))
	return Merge(all, func(a, b line) bool { return before(a, b) < 0 }, func(one line) error { return do(one.cells) })
}

// Close throws the files away.
func (l *Lines) Close() {
	if l.own != "" {
		os.RemoveAll(l.own)
	}
}

// openSorted opens a file that putAway wrote.
func openSorted(name string) (next func() (line, error), done func(), err error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, nil, err
	}
	in := csv.NewReader(file)
	in.FieldsPerRecord = -1
	return func() (line, error) { return read(in) }, func() { file.Close() }, nil
}

func read(in *csv.Reader) (line, error) {
	cells, err := in.Read()
	if err != nil {
		return line{}, err
	}
	number, err := strconv.ParseFloat(cells[1], 64)
	return line{cells[0], number, cells[2], cells[3:]}, err
}
