package farmtable

import "bufio"

// textFormulas is text in which ="0417", the formula with which programs keep a
// spreadsheet from dropping zeros, becomes "0417", a value in quotation marks.
type textFormulas struct {
	from      *bufio.Reader
	separator byte
	quoted    bool // within quotation marks
	inValue   bool // a value has begun
}

// Read leaves out the = before a quotation mark that begins a value.
func (f *textFormulas) Read(into []byte) (int, error) {
	n, err := f.from.Read(into)
	kept := 0
	for i, b := range into[:n] {
		if b == '=' && !f.quoted && !f.inValue && f.after(into[i+1:n]) == '"' {
			continue
		}
		switch {
		case b == '"':
			f.quoted, f.inValue = !f.quoted, true
		case !f.quoted:
			f.inValue = b != f.separator && b != '\n'
		}
		into[kept] = b
		kept++
	}
	if kept == 0 && n > 0 && err == nil {
		return f.Read(into) // all that was read is left out
	}
	return kept, err
}

// after returns the byte that follows, which may not be read yet; 0 at the end.
func (f *textFormulas) after(rest []byte) byte {
	if len(rest) > 0 {
		return rest[0]
	}
	if next, err := f.from.Peek(1); err == nil {
		return next[0]
	}
	return 0
}
