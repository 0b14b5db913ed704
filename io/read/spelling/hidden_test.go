package spelling_test

import (
	"testing"

	"fencerow/io/read/spelling"
)

// A name with a character that nobody sees is told from the one without.
func TestHidden(t *testing.T) {
	for text, want := range map[string]string{"0417": "", "Doña Ana": "", "04\u200b17": "U+200B", "op\u202eerator": "U+202E", "soft\u00adhyphen": "U+00AD"} {
		if got := spelling.Hidden(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
