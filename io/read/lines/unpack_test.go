package lines

import (
	"bytes"
	"compress/gzip"
	"io"
	"strings"
	"testing"
)

// zipped packs a line that stands in a text so many times.
func zipped(t *testing.T, line string, times int) []byte {
	t.Helper()
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	many := []byte(strings.Repeat(line, 1000))
	for range times / 1000 {
		if _, err := w.Write(many); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return packed.Bytes()
}

// A text that packs as a table does is read to its end; of one that packs to a thousandth the
// reading ends soon after the bound.
func TestUnpack(t *testing.T) {
	whole, err := Unpack(bytes.NewReader(zipped(t, "99001,corn,120\n", 1_000_000)))
	if err != nil {
		t.Fatal(err)
	}
	if n, err := io.Copy(io.Discard, whole); n != 15_000_000 || err != nil {
		t.Errorf("%d bytes, %v", n, err)
	}
	bomb := zipped(t, strings.Repeat("\n", 1000), 300_000) // 300 MB
	text, err := Unpack(bytes.NewReader(bomb))
	if err != nil {
		t.Fatal(err)
	}
	n, err := io.Copy(io.Discard, text)
	if err == nil || !strings.Contains(err.Error(), "more than 100 times its size") || n > int64(2*(smallText+mostTimes*len(bomb))) {
		t.Errorf("%d of 300 MB from %d bytes, %v", n, len(bomb), err)
	}
	if _, err := Unpack(strings.NewReader("no gzip")); err == nil {
		t.Error("a text that is not packed is unpacked")
	}
}
