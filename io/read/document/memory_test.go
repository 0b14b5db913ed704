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

// A text of 16 MB and one of as many values as are read take about 25 times as much memory as
// the largest file has, also where the text is short. What would take more, or time with the
// square of its entries, is refused. Aliases, which would repeat a value, are refused.
func TestMemoryOfTexts(t *testing.T) {
	refused := map[string]string{
		"values":        "a: [" + strings.Repeat("b,", mostMarks) + "b]\n",
		"lines":         strings.Repeat("- b\n", mostMarks),
		"empty entries": strings.Repeat("-\n", mostMarks/4),
		"pairs":         "a: [" + strings.Repeat("{a: b},", mostMarks) + "b]\n",
		"comments":      strings.Repeat("#\n", mostMarks),
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
	const about = 30 * MostBytes // 25 were seen; it depends on when memory is collected
	for name, text := range map[string]string{"values": "a: [" + strings.Repeat("b,", mostMarks-10) + "b]\n", "one text": "a: " + strings.Repeat("x", MostBytes-10) + "\n"} {
		if most := heapOf(func() {
			if _, err := Parse(name, []byte(text)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}); most > about {
			t.Errorf("%s: %d MB, want at most %d", name, most>>20, about>>20)
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
