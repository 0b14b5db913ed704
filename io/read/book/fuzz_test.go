package book

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

// smallFiles are an agency's files of a few lines, of every kind that is text.
func smallFiles(t testing.TB) (all []string) {
	t.Helper()
	read := func(path string) string {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	return []string{
		read(rmaLines(t, "150.5", "160")),
		nassHeadings + "\nSURVEY\tCROPS\tFIELD CROPS\tCORN\tALL CLASSES\tALL PRODUCTION PRACTICES\tGRAIN\tYIELD\tBU / ACRE\tCORN, GRAIN - YIELD, MEASURED IN BU / ACRE\tTOTAL\tNOT SPECIFIED\tCOUNTY\t99\t99\tNW\tNOWHERE\t10\tNORTH\t001\t001\tALDER\t\t\t00000000\t\t\t9000\tUNITED STATES\tNOWHERE, ALDER\t2024\tANNUAL\t00\t00\tYEAR\t\t2026-06-26 15:00:00\t180\t1.5\n",
		"WasdeNumber,Attribute,Commodity,Region,MarketYear,ProjEstFlag,AnnualQuarterFlag,Value,Unit,ReleaseDate\n999,Avg. Farm Price,Corn,United States,2026/27,Proj.,Annual,4.20,$/bu,2026-11-10\n",
	}
}

// finite holds that all of a book is read, without a figure that is not finite.
func finite(t *testing.T, b *Book) {
	t.Helper()
	sources, err := b.Sources("")
	market, _, noMarket := b.Market()
	list, noList := b.List("")
	files, noFiles := b.Files()
	for _, err := range []error{err, noMarket, noList, noFiles} {
		toldWhy(t, err)
	}
	for _, read := range []any{sources, market, list, files} {
		if err := sound.Finite(read); err != nil {
			t.Error(err)
		}
	}
}

// toldWhy holds that an error of a book says what is wrong and what to do.
func toldWhy(t *testing.T, err error) {
	t.Helper()
	var mistakes farm.Mistakes
	var refused *Refused
	if err != nil && !errors.As(err, &mistakes) && !errors.As(err, &refused) {
		t.Errorf("%v is not farm.Mistakes and not *Refused", err)
	}
}

// Any file is put into the book or refused with what to do; the book is sound after either.
func FuzzImport(f *testing.F) {
	sound.ReadWords(f, "../yields/testdata/fuzz/words.txt").Fuzz(f, smallFiles(f), func(t *testing.T, text []byte) {
		path := filepath.Join(t.TempDir(), "file.csv")
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		b := openNew(t)
		_, err := b.Import(path, day, false)
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Errorf("%v is not farm.Mistakes", err)
		}
		if _, err := b.Verify(); err != nil {
			t.Error(err)
		}
		finite(t, b)
	})
}

// A book with any bytes changed is refused, or read without a figure that is not finite. It
// is never written to by reading.
func FuzzOpen(f *testing.F) {
	path := filepath.Join(f.TempDir(), "counties.db")
	b, err := Open(path, true)
	if err != nil {
		f.Fatal(err)
	}
	for i, text := range smallFiles(f) {
		file := filepath.Join(f.TempDir(), string(rune('a'+i))+".csv")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			f.Fatal(err)
		}
		importInto(f, b, file)
	}
	if err := b.Close(); err != nil {
		f.Fatal(err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte(nil), uint32(0))
	f.Add([]byte("SQLite format 3\x00\xff"), uint32(0))
	f.Add([]byte{0xff, 0xff, 0xff, 0xff}, uint32(100))
	f.Fuzz(func(t *testing.T, changed []byte, at uint32) {
		content := append([]byte(nil), whole...)
		copy(content[int(at)%len(content):], changed)
		path := filepath.Join(t.TempDir(), "counties.db")
		if err := os.WriteFile(path, content, 0o600); err != nil {
			t.Fatal(err)
		}
		sound.Soon(func() {
			b, err := Open(path, false)
			if err != nil {
				toldWhy(t, err)
				return
			}
			defer b.Close()
			finite(t, b)
		})
	})
}
