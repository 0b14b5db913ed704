package batch

import (
	"archive/zip"
	"bytes"
	"io"
	"slices"
	"strings"
)

// settled copies a workbook (a zip file) with its parts in the order of their names
// and without times, so that the same figures give the same bytes.
func settled(w io.Writer, workbook []byte) error {
	in, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return err
	}
	files := slices.SortedFunc(slices.Values(in.File), func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, file := range files {
		if err := settle(out, file); err != nil {
			return err
		}
	}
	return out.Close()
}

func settle(out *zip.Writer, file *zip.File) error {
	from, err := file.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	to, err := out.CreateHeader(&zip.FileHeader{Name: file.Name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	_, err = io.Copy(to, from)
	return err
}
