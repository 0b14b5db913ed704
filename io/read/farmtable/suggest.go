package farmtable

import (
	"fmt"
	"strings"

	"fencerow/io/read/lines"
)

// Suggest returns a columns file for a table, with a comment on each guess and on what is
// not understood, and closes the lines. Only what cannot be read is an error, farm.Mistakes.
func Suggest(path string, from lines.Lines) ([]byte, error) {
	defer from.Close()
	r := newReader(path, from, nil, Profile{})
	found, _, _, err := r.lineOfHeadings()
	if err != nil {
		return nil, err
	}
	var b, other strings.Builder
	fmt.Fprintf(&b, "# Columns of %s, by the headings on line %d. Look at each line with a comment.\nformat: %s\ncolumns:\n", path, found.Number, ProfileFormat)
	var has [columnCount]string
	for _, cell := range found.Cells {
		heading := strings.Join(strings.Fields(cell), " ")
		if heading == "" {
			continue
		}
		of, known := understood(heading)
		likely := known
		if !known {
			of.column, likely = r.profile.likelyColumn(heading)
		}
		switch name := columns[of.column].name; {
		case !likely:
			fmt.Fprintf(&other, "# not understood: %q\n", heading)
		case has[of.column] != "":
			fmt.Fprintf(&other, "# %s too? %q; above it is %q\n", name, heading, has[of.column])
		default:
			has[of.column] = heading
			fmt.Fprintf(&b, "  %s: %q", name, heading)
			if !known {
				b.WriteString(" # a guess: it may be something else")
			}
			b.WriteString("\n")
		}
	}
	b.WriteString(other.String())
	for c, of := range columns {
		if of.required && has[c] == "" {
			fmt.Fprintf(&b, "# needed and not found: %s, the %s; give its heading above, or one value for all rows below\n", of.name, of.meaning)
		}
	}
	b.WriteString("# constants:\n#   state: \"99\"\n")
	return []byte(b.String()), nil
}
