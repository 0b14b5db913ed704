package terminal

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/iotest"
)

// What steers a terminal comes out as its number; all else as it is, however it is cut.
func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"farm 0417, 62 of 100\n\tcorn\r":          "farm 0417, 62 of 100\n\tcorn\r",
		"Doña Ana, 10 × 10":                       "Doña Ana, 10 × 10",
		"a\x1b[31mred":                            `a\u001b[31mred`,
		"op\u202eerator, z\u200bero, \ufeffbegin": `op\u202eerator, z\u200bero, \ufeffbegin`,
		"\x07\x9b":                                `\u0007\x9b`,
	} {
		var whole, cut strings.Builder
		NewPlain(&whole).Write([]byte(text))
		p := NewPlain(&cut)
		for i := range len(text) {
			p.Write([]byte{text[i]})
		}
		if whole.String() != want || cut.String() != want {
			t.Errorf("%q is %q, cut %q; want %q", text, whole.String(), cut.String(), want)
		}
	}
	if _, err := NewPlain(iotest.TruncateWriter(nil, 0)).Stat(); err != fs.ErrInvalid {
		t.Error(err)
	}
	if info, err := NewPlain(os.Stderr).Stat(); err != nil || info.Name() == "" {
		t.Error(info, err)
	}
}
