package sorted

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
)

// Lines that do not fit into memory come in the same order as those that do, equals as they
// were added, and leave no file behind.
func TestLinesFromFiles(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	folder := t.TempDir()
	inside, outside := New(folder), New(folder)
	outside.most = 7
	for i := range 1000 {
		text, number := fmt.Sprint(r.IntN(5)), float64(r.IntN(10))
		cells := []string{text, fmt.Sprint(number), fmt.Sprint(i), "a \"word\",\nand another", ""}
		for _, l := range []*Lines{inside, outside} {
			if err := l.Add(text, number, string(rune('a'+i%3)), cells); err != nil {
				t.Fatal(err)
			}
		}
	}
	var got [2][]string
	for i, l := range []*Lines{inside, outside} {
		if err := l.Each(func(cells []string) error { got[i] = append(got[i], fmt.Sprintf("%q", cells)); return nil }); err != nil {
			t.Fatal(err)
		}
		l.Close()
	}
	if !slices.Equal(got[0], got[1]) || len(got[0]) != 1000 || len(outside.files) < 100 {
		t.Errorf("%d lines and %d, of %d files", len(got[0]), len(got[1]), len(outside.files))
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Errorf("left: %v, %v", left, err)
	}
}
