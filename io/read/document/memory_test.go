package document

import (
	"errors"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"fencerow/program/farm"
)

// Whatever is in a text, reading it takes at most 48 MiB, or 20 times its size where that is
// more. What would take more, or time with the square of its entries, is refused. Aliases, which
// would repeat a value, are refused.
func TestMemoryOfTexts(t *testing.T) {
	refused := map[string]string{
		"values":        "a: [" + strings.Repeat("b,", mostMarks) + "b]\n",
		"lines":         strings.Repeat("- b\n", mostMarks),
		"empty entries": strings.Repeat("-\n", mostMarks/4),
		"pairs":         "a: [" + strings.Repeat("{a: b},", mostMarks) + "b]\n",
		"comments":      strings.Repeat("#\n", mostMarks),
		"long line":     "a: " + strings.Repeat("x", mostPieceBytes) + "\n",
		"long text":     "a: |\n" + strings.Repeat("  "+strings.Repeat("x", 80)+"\n", MostBytes/100),
		"flow":          "a: [" + strings.Repeat("b,", mostPiece) + "b]\n",
		"aliases":       "a: &a [" + strings.Repeat("b,", 1000) + "]\nc: [" + strings.Repeat("*a,", 1000) + "]\n",
	}
	for name, text := range refused {
		if most := heapOf(func() {
			var mistakes farm.Mistakes
			if _, err := Parse(name, []byte(text)); !errors.As(err, &mistakes) || mistakes[0].Hint == "" {
				t.Errorf("%s: %v", name, err)
			}
		}); most > 10*MostBytes {
			t.Errorf("%s: %d MB for a text of %d MB that is refused", name, most>>20, len(text)>>20)
		}
	}
	const least, times = 48 << 20, 20
	read := map[string]string{
		"farms":       farms(8000, "  "),
		"entries":     "a:\n" + strings.Repeat("- b\n", mostMarks/2-10),
		"pairs":       "a:\n" + strings.Repeat("- {b: c}\n", mostMarks/5-10),
		"flow":        "a: [" + strings.Repeat("b,", mostPiece-10) + "b]\n",
		"long value":  "a: " + strings.Repeat("x", mostPieceBytes-10) + "\n",
		"long quote":  "a: \"" + strings.Repeat("x", mostPieceBytes-10) + "\"\n",
		"long text":   "a: |\n" + strings.Repeat("  "+strings.Repeat("x", 80)+"\n", mostPieceBytes/90),
		"texts":       "a:\n" + strings.Repeat("- "+strings.Repeat("x", 80)+"\n", MostBytes/90),
		"long values": "a:\n" + strings.Repeat("- "+strings.Repeat("x", 400_000)+"\n", MostBytes/410_000),
	}
	for name, text := range read {
		most := heapOf(func() {
			if _, err := Parse(name, []byte(text)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		})
		t.Logf("%s: %.1f MiB, %.1f times its size", name, float64(most)/(1<<20), float64(most)/float64(len(text)))
		if most > max(least, times*uint64(len(text))) {
			t.Errorf("%s: %d MiB for a text of %.1f MiB", name, most>>20, float64(len(text))/(1<<20))
		}
	}
}

// heapOf is the most memory that a function was seen to hold.
func heapOf(do func()) uint64 {
	defer debug.SetGCPercent(debug.SetGCPercent(20))
	runtime.GC()
	held := func() uint64 {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before, most, done := held(), uint64(0), make(chan bool)
	go func() {
		defer close(done)
		do()
	}()
	for {
		select {
		case <-done:
			return most
		case <-time.After(2 * time.Millisecond):
			if now := held(); now > before {
				most = max(most, now-before)
			}
		}
	}
}
