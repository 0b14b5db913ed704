package workbook

import (
	"fmt"
	"testing"
)

// The mark of a cell of TRUE is found however the part comes in.
func TestTruthFinder(t *testing.T) {
	for text, want := range map[string]bool{
		`<c r="A1" t="b"><v>1</v></c>`: true, `<c r='A1' t='b'><v>0</v></c>`: true,
		`<c r="A1" t="s"><v>1</v></c>`: false, `<c r="A1"><v>1</v></c>`: false, `<c t="bc">`: false, "": false,
	} {
		for size := 1; size <= len(text)+1; size++ {
			f := TruthFinder{}
			for from := 0; from < len(text); from += size {
				fmt.Fprint(&f, text[from:min(len(text), from+size)])
			}
			if f.Found != want {
				t.Errorf("%q in pieces of %d: found %v", text, size, f.Found)
			}
		}
	}
}
