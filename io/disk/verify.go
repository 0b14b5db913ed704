package disk

import (
	"fmt"

	"fencerow/io/read/book"
	"fencerow/io/read/builtin"
)

// Verified is what of the county book and the built-in tables was looked at and found right.
type Verified struct {
	Format  string         `json:"format"`
	Book    *book.Verified `json:"county_book"` // null: there is none
	BuiltIn BuiltInTables  `json:"built_in"`
}

// BuiltInTables counts what the built-in county tables hold.
type BuiltInTables struct {
	Counties int `json:"counties"`
	Series   int `json:"series"`
}

// Verify checks the county book of a name, as OpenBook takes it, with the agencies' files that
// were imported into it, and the built-in tables, which are packed with checksums. The error
// says what is wrong.
func Verify(name string, files []string) (v Verified, err error) {
	v.Format = "fencerow/verified/1"
	open := func() (*book.Book, error) { return OpenBook(name, false) }
	if len(files) > 0 {
		open = func() (*book.Book, error) { return NeedBook(name, false) }
	}
	b, err := open()
	if err != nil {
		return v, err
	}
	if b != nil {
		defer b.Close()
		of, err := b.Verify(files...)
		if err != nil {
			return v, err
		}
		v.Book = &of
	}
	v.BuiltIn, err = verifyBuiltIn()
	return v, err
}

// verifyBuiltIn reads all built-in tables.
func verifyBuiltIn() (t BuiltInTables, err error) {
	sources, err := builtin.Sources("")
	if err == nil {
		_, err = builtin.Past()
	}
	if err != nil {
		return t, fmt.Errorf("the program itself is damaged: %w", err)
	}
	codes := map[string]bool{}
	for _, source := range sources {
		for code, county := range source.Counties {
			codes[code] = true
			t.Series += len(county.Yields)
		}
	}
	t.Counties = len(codes)
	return t, nil
}

// String is the line for people.
func (v Verified) String() string {
	line := "no county book"
	if b := v.Book; b != nil {
		line = fmt.Sprintf("%s: %d files, %d figures, %d prices", b.Book, b.Files, b.Figures, b.Prices)
		if len(b.Again) > 0 {
			line += fmt.Sprintf(", %d files as imported", len(b.Again))
		}
	}
	return fmt.Sprintf("sound: %s; built-in tables, %d counties, %d series", line, v.BuiltIn.Counties, v.BuiltIn.Series)
}

// mostLeftOut is how many figures that are left out are listed.
const mostLeftOut = 40

// LeftOut lists the figures of the book that no answer uses, as lines for people.
func (v Verified) LeftOut() (lines []string) {
	if v.Book == nil {
		return nil
	}
	for i, text := range v.Book.LeftOut {
		if i == mostLeftOut {
			return append(lines, fmt.Sprintf("and %d more; --json lists all", len(v.Book.LeftOut)-mostLeftOut))
		}
		lines = append(lines, "as the agency has it, left out of answers: "+text)
	}
	return lines
}
