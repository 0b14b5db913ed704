package sound

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

type inner struct{ hidden []float64 }

type outer struct {
	ByName map[string]*inner
	Any    any
	Self   *outer
}

// A number that is not finite is found and named wherever it stands; a value that leads back
// to itself ends.
func TestFinite(t *testing.T) {
	loop := &outer{Any: 1.5, ByName: map[string]*inner{"a": {hidden: []float64{0, 2}}, "none": nil}}
	loop.Self = loop
	if err := Finite(loop); err != nil {
		t.Error(err)
	}
	loop.ByName["a"].hidden[1] = math.NaN()
	if err := Finite(loop); err == nil || !strings.Contains(err.Error(), "ByName[a].hidden[1] is NaN") {
		t.Errorf("%v", err)
	}
	if err := Finite([]any{"a", outer{Any: float32(math.Inf(-1))}}); err == nil || !strings.Contains(err.Error(), "[1].Any is -Inf") {
		t.Errorf("%v", err)
	}
	if err := Finite(map[float64]int{math.Inf(1): 1}); err == nil {
		t.Error("a key that is infinite is not found")
	}
}

// Words become a byte, or two where they are more than 128, and the text again; a byte that is no word stands for one all the same.
func TestWords(t *testing.T) {
	file := filepath.Join(t.TempDir(), "words.txt")
	if err := os.WriteFile(file, []byte("farm:\n\" \\n\"\nfarms:\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	w := ReadWords(t, file)
	if len(w) != 3 || w[1] != " \n" {
		t.Fatalf("%q", w)
	}
	if short := w.shorten("farms: 1"); string(short) != "\x82 1" {
		t.Errorf("%q", short)
	}
	if got := string(w.spell([]byte("\x80 1\x81\x85"))); got != "farm: 1 \nfarms:" {
		t.Errorf("%q", got)
	}
	many := make(Words, 200)
	for i := range many {
		many[i] = strings.Repeat("x", 3+i)
	}
	const text = "xxxx y"
	if got := string(many.spell(many.shorten(text))); got != text {
		t.Errorf("%q", got)
	}
}

// Without a search Soon runs what it is given, once.
func TestSoonRuns(t *testing.T) {
	ran := 0
	Soon(func() { ran++ })
	if ran != 1 {
		t.Errorf("ran %d times", ran)
	}
}
