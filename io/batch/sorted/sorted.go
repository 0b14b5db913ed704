package sorted

import (
	"cmp"
	"container/heap"
	"encoding/csv"
	"io"
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
	var all []*source
	for _, name := range l.files {
		file, err := os.Open(name)
		if err != nil {
			return err
		}
		defer file.Close()
		in := csv.NewReader(file)
		in.FieldsPerRecord = -1
		all = append(all, &source{next: func() (line, error) { return read(in) }})
	}
	held := l.held
	all = append(all, &source{next: func() (line, error) {
		if len(held) == 0 {
			return line{}, io.EOF
		}
		one := held[0]
		held = held[1:]
		return one, nil
	}})
	return merge(all, do)
}

// Close throws the files away.
func (l *Lines) Close() {
	if l.own != "" {
		os.RemoveAll(l.own)
	}
}

// source gives lines in order.
type source struct {
	at   int // its place among the sources
	next func() (line, error)
	now  line
}

// advance sets now to the next line; io.EOF after the last.
func (s *source) advance() (err error) {
	s.now, err = s.next()
	return err
}

// sources are a heap: the first line of all comes first, of equals that of an earlier source.
type sources []*source

// Len is how many sources have a line left.
func (all sources) Len() int { return len(all) }

// Swap changes the places of two sources.
func (all sources) Swap(i, k int) { all[i], all[k] = all[k], all[i] }

// Less reports whether the line of one source comes before that of another.
func (all sources) Less(i, k int) bool {
	return cmp.Or(before(all[i].now, all[k].now), cmp.Compare(all[i].at, all[k].at)) < 0
}

// Push adds a source.
func (all *sources) Push(s any) { *all = append(*all, s.(*source)) }

// Pop takes the last source away.
func (all *sources) Pop() any {
	last := (*all)[len(*all)-1]
	*all = (*all)[:len(*all)-1]
	return last
}

func read(in *csv.Reader) (line, error) {
	cells, err := in.Read()
	if err != nil {
		return line{}, err
	}
	number, err := strconv.ParseFloat(cells[1], 64)
	return line{cells[0], number, cells[2], cells[3:]}, err
}

// merge calls do with the lines of all sources in order; of equals with those of an
// earlier source first.
func merge(all []*source, do func([]string) error) error {
	var open sources
	for i, s := range all {
		s.at = i
		switch err := s.advance(); err {
		case nil:
			open = append(open, s)
		case io.EOF:
		default:
			return err
		}
	}
	heap.Init(&open)
	for len(open) > 0 {
		first := open[0]
		if err := do(first.now.cells); err != nil {
			return err
		}
		switch err := first.advance(); err {
		case nil:
			heap.Fix(&open, 0)
		case io.EOF:
			heap.Pop(&open)
		default:
			return err
		}
	}
	return nil
}
