package cells

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

// WithSheets is a file with empty sheets.
func WithSheets(sheets []*Sheet) (*excelize.File, error) {
	f := excelize.NewFile()
	if err := f.SetSheetName(f.GetSheetName(0), sheets[0].Title); err != nil {
		return nil, err
	}
	for _, s := range sheets[1:] {
		if _, err := f.NewSheet(s.Title); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// Write writes the sheets with what their formulas come to. Charts, validations
// and protection go before the rows: the library drops what comes after them.
func Write(w io.Writer, sheets []*Sheet, found FormulaValues) error {
	f, err := WithSheets(sheets)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.SetDefaultFont(typeface); err != nil {
		return err
	}
	for _, s := range sheets {
		for _, name := range slices.Sorted(maps.Keys(s.Names)) {
			if err := f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: s.Names[name].Absolute()}); err != nil {
				return err
			}
		}
		for _, name := range slices.Sorted(maps.Keys(s.Lists)) {
			if err := f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: s.Lists[name]}); err != nil {
				return err
			}
		}
	}
	if err := show(f, sheets); err != nil {
		return err
	}
	styles := styles{file: f, ids: map[Look]int{}}
	for _, s := range sheets {
		if err := s.prepare(f); err != nil {
			return err
		}
		if err := s.writeRows(f, styles, found); err != nil {
			return err
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		return err
	}
	return ordered(w, out.Bytes())
}

// show hides the sheets that are not to be seen and opens on the one that is to be.
func show(f *excelize.File, sheets []*Sheet) error {
	for i, s := range sheets {
		if s.Screen.Opens {
			f.SetActiveSheet(i)
		}
		if s.Paper.Hidden {
			if err := f.SetSheetVisible(s.Title, false); err != nil {
				return err
			}
		}
	}
	return nil
}

// typeface is on every machine, or one of the same widths is.
const typeface = "Arial"

// styles are those in use, by look.
type styles struct {
	file *excelize.File
	ids  map[Look]int
}

// of returns the style of a look.
func (s styles) of(l Look) (int, error) {
	if id, made := s.ids[l]; made {
		return id, nil
	}
	id, err := s.file.NewStyle(l.style())
	s.ids[l] = id
	return id, err
}

// contentTypes is the part of the file that lists the others.
const contentTypes = "[Content_Types].xml"

var contentType = regexp.MustCompile(`<(Default|Override) [^>]*>(</(Default|Override)>)?`)

// ordered writes a file of the library with its parts in the order of their names: the
// library's own order is a matter of chance.
func ordered(w io.Writer, file []byte) error {
	parts, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		return err
	}
	slices.SortFunc(parts.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, part := range parts.File {
		if err := copied(out, part); err != nil {
			return err
		}
	}
	return out.Close()
}

// copied writes one part of a file.
func copied(out *zip.Writer, part *zip.File) error {
	if part.Name != contentTypes {
		return out.Copy(part)
	}
	from, err := part.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	text, err := io.ReadAll(from)
	if err != nil {
		return err
	}
	all := contentType.FindAllString(string(text), -1)
	slices.Sort(all)
	next := -1
	text = contentType.ReplaceAllFunc(text, func([]byte) []byte { next++; return []byte(all[next]) })
	to, err := out.Create(part.Name)
	if err != nil {
		return err
	}
	_, err = to.Write(text)
	return err
}
