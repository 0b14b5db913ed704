package record

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// TestRefused: what is no text of a farm record is refused with its line and what to do.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, text, reason string
		line               int
	}{
		{"a PDF", "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj", "this is a PDF", 1},
		{"a workbook", "PK\x03\x04\x14\x00", "no text file", 1},
		{"bytes", "abc\x00def", "no text file", 1},
		{"nothing", "\n \f\n", "the text is empty", 1},
		{"another text", "\n\nDear neighbor,\nthe corn looks good.\n", "no page head of a farm record", 3},
		{"an operation file", "format: fencerow/operation/1\nfarms: []\n", "no page head of a farm record", 1},
		{"a page head without its number", "\n ILLINOIS          FARM :\n Form: FSA-156EZ\n", "no farm number", 3},
	} {
		records, err := Parse("print.txt", []byte(c.text))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || len(records) > 0 {
			t.Errorf("%s: %d records, %v", c.name, len(records), err)
			continue
		}
		if m := mistakes[0]; m.File != "print.txt" || m.Line != c.line || !strings.Contains(m.Reason, c.reason) || !strings.Contains(m.Hint, "copy it into a text file") {
			t.Errorf("%s: line %d %s; %s", c.name, m.Line, m.Reason, m.Hint)
		}
	}
}

// FuzzParse: any text is read or refused with a farm.Mistakes, and a farm can be made of
// what is read.
func FuzzParse(f *testing.F) {
	starts := []string{
		"FARM : 1\nForm: FSA-156EZ\nDCP Crop Data\nCorn 1.00 0.00 2",
		"FARM : 1\n:\n:\nOwners :\nFarm Land Data\n1.00\n2.00\n3.00\nCrop Election Choice\nPLC\n,\n,",
		"FARM: 1\nOperator Name  Farm Identifier\n\fTract 9 Continued\nTract Number:\nTOTAL",
	}
	prints, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(prints) == 0 {
		f.Fatalf("no prints: %v", err)
	}
	for _, file := range prints {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		starts = append(starts, string(text))
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		records, err := Parse("print.txt", text)
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Fatalf("%v", err)
		}
		o, _ := Operation(records, findInvented)
		if err := errors.Join(sound.Finite(records), sound.Finite(o)); err != nil {
			t.Error(err)
		}
	})
}
