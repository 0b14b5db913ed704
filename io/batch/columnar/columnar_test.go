package columnar

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

type line struct {
	Farm    string   `parquet:"farm"`
	Differs bool     `parquet:"differs"`
	Mean    *float64 `parquet:"mean,optional"`
}

func some(n int, differs bool) (all []line) {
	for i := range n {
		mean := float64(i)
		one := line{Farm: "99001-" + strings.Repeat("7", 1+i%5), Differs: differs != (i%3 == 0), Mean: &mean}
		if i%4 == 0 {
			one.Mean = nil
		}
		all = append(all, one)
	}
	return all
}

// A file has the same bytes whatever the same memory wrote before it.
func TestWriterLeavesNothingBehind(t *testing.T) {
	var again Writer[line]
	for _, lines := range [][]line{some(700, true), some(13, false), some(1, false), nil, some(701, true), some(30, false)} {
		var first, later bytes.Buffer
		if err := errors.Join((&Writer[line]{}).Write(&first, lines), again.Write(&later, lines)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), later.Bytes()) {
			t.Errorf("%d lines: other bytes in memory that was used before", len(lines))
		}
	}
}

// Joined files hold the lines of all, in order, whether they come as one share or as several;
// a file that is missing or is none is an error that names it.
func TestJoin(t *testing.T) {
	folder := t.TempDir()
	write := func(name string, lines ...line) string {
		path := filepath.Join(folder, name)
		var b bytes.Buffer
		if err := errors.Join((&Writer[line]{}).Write(&b, lines), os.WriteFile(path, b.Bytes(), 0o600)); err != nil {
			t.Fatal(err)
		}
		return path
	}
	one, two, three := write("1", line{Farm: "a"}, line{Farm: "d"}), write("2", line{Farm: "e"}), write("3", line{Farm: "b"}, line{Farm: "f"})
	before := func(a, b line) bool { return a.Farm < b.Farm }
	for want, shares := range map[string][][]string{"adebf": {{one, two, three}}, "abdef": {{one, two}, {three}}, "": nil} {
		var joined bytes.Buffer
		var seen string
		if err := Join(&joined, shares, before, func(l line) { seen += l.Farm }); err != nil || seen != want {
			t.Errorf("%v: joined as %q (%v), want %q", shares, seen, err, want)
		}
		again := filepath.Join(folder, "joined")
		if err := os.WriteFile(again, joined.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		seen = ""
		if err := Join(&bytes.Buffer{}, [][]string{{again}}, before, func(l line) { seen += l.Farm }); err != nil || seen != want {
			t.Errorf("%v: read again as %q (%v), want %q", shares, seen, err, want)
		}
	}
	missing := filepath.Join(folder, "none")
	if err := Join(&bytes.Buffer{}, [][]string{{missing}}, before, func(line) {}); err == nil || !strings.Contains(fmt.Sprint(err), "none") {
		t.Errorf("a missing file: %v", err)
	}
}
