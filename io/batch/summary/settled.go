package summary

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"io"
	"io/fs"
	"maps"
	"slices"

	"github.com/xuri/excelize/v2"
)

// settled is the file of a workbook (a zip file) with its parts in the order of their names
// and without times, so that the same figures give the same bytes.
type settled struct {
	to    io.Writer
	parts map[string]*bytes.Buffer
}

func newSettled(to io.Writer) excelize.ZipWriter { return &settled{to, map[string]*bytes.Buffer{}} }

// Create adds a part.
func (s *settled) Create(name string) (io.Writer, error) {
	s.parts[name] = &bytes.Buffer{}
	return s.parts[name], nil
}

// AddFS adds the files of a folder.
func (s *settled) AddFS(files fs.FS) error {
	return fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(files, name)
		s.parts[name] = bytes.NewBuffer(text)
		return err
	})
}

// Close writes the file.
func (s *settled) Close() error {
	out := zip.NewWriter(s.to)
	out.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.BestSpeed) })
	for _, name := range slices.Sorted(maps.Keys(s.parts)) {
		to, err := out.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
		if err != nil {
			return err
		}
		if _, err := s.parts[name].WriteTo(to); err != nil {
			return err
		}
	}
	return out.Close()
}
