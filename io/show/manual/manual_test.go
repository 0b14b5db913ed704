package manual

import (
	"strings"
	"testing"
)

// What a formatter would obey is text: a backslash, a line that begins with a full stop or an
// apostrophe, quotation marks of an argument.
func TestTextIsNoRequest(t *testing.T) {
	var out strings.Builder
	p := Page{Name: "a-b", Section: "7", Release: `a "b"`, Short: `one \ two`, Parts: []Part{{
		Heading: "text", Text: "first\n.SH of a paragraph\n\n  'second\n\n\n", Items: []Item{{".x", ".y"}}, Lines: []string{"  kept", ".so file", "", "'z"},
	}}}
	if err := p.Write(&out); err != nil {
		t.Fatal(err)
	}
	want := `.TH "A\-B" "7" "" "a \(dqb\(dq"
.nh
.ad l
.SH NAME
a\-b \- one \e two
.SH TEXT
first
\&.SH of a paragraph
.PP
\&'second
.TP
\fB.x\fR
\&.y
.nf
  kept
\&.so file

\&'z
.fi
`
	if out.String() != want {
		t.Errorf("got\n%s\nwant\n%s", out.String(), want)
	}
}
