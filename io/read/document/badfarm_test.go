package document_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/io/read/county"
	"fencerow/io/read/market"
	"fencerow/io/read/operation"
	"fencerow/program/farm"
)

const badFarms = "../../../testdata/badfarm"

// parse reads a text as the kind of file that its name begins with.
func parse(name string, text []byte) error {
	kind, _, _ := strings.Cut(filepath.Base(name), "-")
	var err error
	switch kind {
	case "operation":
		_, err = operation.Parse(name, text)
	case "county":
		_, err = county.Parse(name, text)
	case "market":
		_, err = market.Parse(name, text)
	default:
		err = fmt.Errorf("the name %s begins with no kind of file", name)
	}
	return err
}

// wanted returns the mistakes that the first lines of a file announce: "wants
// line:column reason", then a part of the hint.
func wanted(t *testing.T, text string) (wants farm.Mistakes) {
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if place, ok := strings.CutPrefix(line, "# wants "); ok {
			m := farm.Mistake{}
			var reason string
			place, reason, _ = strings.Cut(place, " ")
			if _, err := fmt.Sscanf(place, "%d:%d", &m.Line, &m.Column); err != nil {
				t.Fatalf("place %q: %v", place, err)
			}
			m.Reason = reason
			wants = append(wants, m)
		} else if hint, ok := strings.CutPrefix(line, "# hint "); ok {
			wants[len(wants)-1].Hint = hint
		} else {
			break
		}
	}
	return wants
}

// Each file of testdata/badfarm has the mistakes its first lines announce, at
// that place, and no other.
func TestBadFarms(t *testing.T) {
	files, err := filepath.Glob(badFarms + "/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no file in %s (%v)", badFarms, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			wants := wanted(t, string(text))
			var got farm.Mistakes
			if err := parse(file, text); !errors.As(err, &got) {
				t.Fatalf("error is %v, not farm.Mistakes", err)
			}
			if len(wants) == 0 || len(got) != len(wants) {
				t.Fatalf("%d mistakes announced, %d found:\n%v", len(wants), len(got), got)
			}
			for i, want := range wants {
				if got[i].Line != want.Line || got[i].Column != want.Column || got[i].Reason != want.Reason || !strings.Contains(got[i].Hint, want.Hint) || got[i].File != file {
					t.Errorf("mistake %d\nwant %d:%d %s\nhint %s\ngot  %d:%d %s\nhint %s", i+1, want.Line, want.Column, want.Reason, want.Hint, got[i].Line, got[i].Column, got[i].Reason, got[i].Hint)
				}
			}
		})
	}
	t.Logf("checked %d of %d files", len(files), len(files))
}
