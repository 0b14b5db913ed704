package parquet_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	library "github.com/parquet-go/parquet-go"

	"fencerow/io/read/parquet"
	"fencerow/program/farm"
)

// many has every kind of value that a table of farms is written with.
type many struct {
	Text    string  `parquet:"text"`
	Whole   int32   `parquet:"whole"`
	Long    int64   `parquet:"long"`
	Single  float32 `parquet:"single"`
	Cents   int64   `parquet:"cents,decimal(2:18)"`
	Truth   bool    `parquet:"truth"`
	Missing *int32  `parquet:"missing,optional"`
}

// written is a file of n rows in groups of some rows each.
func written(t *testing.T, n, perGroup int) []byte {
	t.Helper()
	var out bytes.Buffer
	w := library.NewGenericWriter[many](&out, library.MaxRowsPerRowGroup(int64(perGroup)))
	for i := range n {
		if _, err := w.Write([]many{{"0417", int32(i), 1 << 40, 0.1, -12345, i%2 == 0, nil}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func opened(t *testing.T, content []byte) (rows [][]string, err error) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "farms.parquet")
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	found, err := parquet.Open(path)
	if err != nil {
		return nil, err
	}
	defer found.Close()
	for {
		line, err := found.Next()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			return rows, err
		}
		rows = append(rows, slices.Clone(line.Cells))
	}
}

// Values are written as one would write them: leading zeros stay, a decimal has its point
// (-12345 hundredths are -123.45), a missing value is blank, a single 0.1 is 0.1.
func TestValuesAsText(t *testing.T) {
	rows, err := opened(t, written(t, 1, 10))
	want := [][]string{{"text", "whole", "long", "single", "cents", "truth", "missing"}, {"0417", "0", "1099511627776", "0.1", "-123.45", "true", ""}}
	if err != nil || len(rows) != 2 || !slices.Equal(rows[0], want[0]) || !slices.Equal(rows[1], want[1]) {
		t.Errorf("%v, %v, want %v", rows, err, want)
	}
}

// All rows of all groups come, each once and in order, over the ends of groups and batches.
func TestAllGroupsAreRead(t *testing.T) {
	const n = 1000
	rows, err := opened(t, written(t, n, 300))
	if err != nil || len(rows) != n+1 {
		t.Fatalf("%d lines, %v, want %d", len(rows), err, n+1)
	}
	for i, cells := range rows[1:] {
		if want := strconv.Itoa(i); cells[1] != want {
			t.Fatalf("row %d is %s", i, cells[1])
		}
	}
}

// A file that breaks off anywhere, is of another kind or a folder is refused as a mistake.
func TestDamagedFilesAreRefused(t *testing.T) {
	whole := written(t, 50, 20)
	for cut := 0; cut < len(whole); cut += 97 {
		var mistakes farm.Mistakes
		if _, err := opened(t, whole[:cut]); !errors.As(err, &mistakes) || mistakes[0].Hint == "" {
			t.Errorf("cut after %d of %d bytes: %v", cut, len(whole), err)
		}
	}
	for _, path := range []string{t.TempDir(), filepath.Join(t.TempDir(), "absent.parquet")} {
		var mistakes farm.Mistakes
		if _, err := parquet.Open(path); !errors.As(err, &mistakes) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// A file that unpacks to far more than it has is refused before a row of it is read. Both were made
// by the library's writer, which takes long for them: testdata/rows.parquet has 3,000,000 rows
// of one empty word with a dictionary, testdata/value.parquet one word of 300 MiB of zeros without
// bounds of its page; zstd.
func TestBombsAreRefused(t *testing.T) {
	for name, reason := range map[string]string{"rows": "3000000 rows in", "value": "unpacks to more than 256 MB"} {
		content, err := os.ReadFile(filepath.Join("testdata", name+".parquet"))
		if err != nil {
			t.Fatal(err)
		}
		var mistakes farm.Mistakes
		found, err := opened(t, content)
		if !errors.As(err, &mistakes) || !strings.Contains(mistakes[0].Reason, reason) || mistakes[0].Hint == "" || len(found) > 0 {
			t.Errorf("%s, %d bytes: %v, want %q", name, len(content), err, reason)
		}
	}
}

// A file that claims to be described by more bytes than it has is refused before as much memory is asked for: ten
// bytes, of which the library would make four gigabytes.
func TestFooterLongerThanTheFile(t *testing.T) {
	for _, content := range []string{"PAR1\xe7\xe7PAR1", "PAR1\xff\xff\xff\xffPAR1", "PAR1\x01\x00\x00\x00PAR1"} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := opened(t, []byte(content))
		runtime.ReadMemStats(&after)
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || mistakes[0].Hint == "" || !strings.Contains(err.Error(), "bytes describe it") {
			t.Errorf("%q: %v", content, err)
		}
		if asked := after.TotalAlloc - before.TotalAlloc; asked > 1<<20 {
			t.Errorf("%q: %d bytes of memory", content, asked)
		}
	}
	if rows, err := opened(t, written(t, 3, 2)); err != nil || len(rows) != 4 { // with the headings
		t.Errorf("a sound file: %d lines, %v", len(rows), err)
	}
}
