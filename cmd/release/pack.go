package main

import (
	"archive/tar"
	"archive/zip"
	"cmp"
	"compress/gzip"
	"io"
	"path"
	"slices"
	"time"
)

// entry is a file of an archive.
type entry struct {
	name    string // with slashes
	content []byte
	runs    bool // it is a program
}

// mode are the rights of the file.
func (e entry) mode() int64 {
	if e.runs {
		return 0o755
	}
	return 0o644
}

// ordered are the entries by name: the same files give the same archive.
func ordered(all []entry) []entry {
	return slices.SortedFunc(slices.Values(all), func(a, b entry) int { return cmp.Compare(a.name, b.name) })
}

// writeTar writes a .tar.gz whose files lie in one folder, all of one day and of no owner.
func writeTar(w io.Writer, folder string, day time.Time, all []entry) error {
	z, err := gzip.NewWriterLevel(w, gzip.BestCompression) // its header has no time and no name
	if err != nil {
		return err
	}
	t := tar.NewWriter(z)
	for _, e := range ordered(all) {
		header := &tar.Header{Typeflag: tar.TypeReg, Name: path.Join(folder, e.name), Size: int64(len(e.content)), Mode: e.mode(), ModTime: day, Format: tar.FormatUSTAR}
		if err := t.WriteHeader(header); err != nil {
			return err
		}
		if _, err := t.Write(e.content); err != nil {
			return err
		}
	}
	if err := t.Close(); err != nil {
		return err
	}
	return z.Close()
}

// writeZip writes a .zip in the same way.
func writeZip(w io.Writer, folder string, day time.Time, all []entry) error {
	z := zip.NewWriter(w)
	for _, e := range ordered(all) {
		header := &zip.FileHeader{Name: path.Join(folder, e.name), Method: zip.Deflate, Modified: day}
		into, err := z.CreateHeader(header)
		if err != nil {
			return err
		}
		if _, err := into.Write(e.content); err != nil {
			return err
		}
	}
	return z.Close()
}
