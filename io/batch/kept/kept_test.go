package kept_test

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fencerow/io/batch/kept"
	"fencerow/io/read/builtin"
	"fencerow/io/read/market"
	"fencerow/program/crop"
	"fencerow/sim/position"
)

// onDisk writes a file of the test.
func onDisk(path string, do func(io.Writer) error) error {
	var text bytes.Buffer
	if err := errors.Join(do(&text), os.MkdirAll(filepath.Dir(path), 0o755)); err != nil {
		return err
	}
	return os.WriteFile(path, text.Bytes(), 0o600)
}

// What is read is what was written, to the last digit: the built-in prices and a State of
// the built-in county tables. Written twice it is the same bytes.
func TestReadGivesWhatWasWritten(t *testing.T) {
	sources, err := builtin.Sources("19")
	if err != nil || len(sources) == 0 {
		t.Fatal(err)
	}
	all := kept.Figures{Market: position.WithEveryPrice(market.Builtin()), Counties: sources, Law: kept.Law()}
	folders := []string{t.TempDir(), t.TempDir()}
	for _, folder := range folders {
		if err := kept.Write(folder, all, onDisk); err != nil {
			t.Fatal(err)
		}
	}
	again, err := kept.Read(folders[0])
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(again.Market, all.Market) {
		t.Error("other prices")
	}
	if len(again.Counties) != len(all.Counties) {
		t.Fatalf("%d sources, want %d", len(again.Counties), len(all.Counties))
	}
	for i, source := range all.Counties {
		if !reflect.DeepEqual(again.Counties[i], source) {
			t.Errorf("other figures of %s", source.Name)
		}
	}
	if !kept.SameLaw(again.Law, all.Law) || len(all.Law) == 0 {
		t.Error("other law")
	}
	for i, name := range kept.Names(folders[0]) {
		one, bad := os.ReadFile(name)
		two, worse := os.ReadFile(kept.Names(folders[1])[i])
		if bad != nil || worse != nil || !bytes.Equal(one, two) {
			t.Errorf("%s differs when written again", name)
		}
	}
}

// A file that is missing or broken is named.
func TestReadNamesWhatIsWrong(t *testing.T) {
	folder := t.TempDir()
	if _, err := kept.Read(folder); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v of an empty folder", err)
	}
	if err := kept.Write(folder, kept.Figures{Law: kept.Law()}, onDisk); err != nil {
		t.Fatal(err)
	}
	counties := kept.Names(folder)[1]
	if err := os.WriteFile(counties, []byte("{}"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := kept.Read(folder); err == nil || !strings.Contains(err.Error(), counties) {
		t.Errorf("%v, want one that names %s", err, counties)
	}
}

// Rows of another crop or crop year are not what an answer rests on.
func TestLawChanges(t *testing.T) {
	before := [][]string{{"reference_price", "corn", "2025", "2031", "4.00"}, {"guarantee_share", "", "2014", "2024", "0.86"}, {"loan_rate", "corn", "2025", "2031", "2.20"}}
	after := [][]string{{"reference_price", "corn", "2025", "2031", "4.10"}, {"guarantee_share", "", "2014", "2024", "0.90"}, {"loan_rate", "corn", "2025", "2031", "2.20"}}
	want := []kept.Change{{What: "reference_price corn", Before: "4.00", After: "4.10"}}
	if got := kept.LawChanges(before, after, crop.Corn, 2026); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	for _, other := range []struct {
		c crop.Commodity
		y crop.CropYear
	}{{crop.Soybeans, 2026}, {crop.Corn, 2032}} {
		if got := kept.LawChanges(before, after, other.c, other.y); got != nil {
			t.Errorf("%v of %s %d", got, other.c, other.y)
		}
	}
}

// Counties that unpack without end are refused: 300 MB of blanks in 300 kB.
func TestPackedWithoutEnd(t *testing.T) {
	folder := t.TempDir()
	names := kept.Names(folder)
	if err := os.MkdirAll(filepath.Dir(names[1]), 0o755); err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	for range 300 {
		w.Write(bytes.Repeat([]byte(" "), 1<<20))
	}
	w.Close()
	if err := errors.Join(os.WriteFile(names[0], []byte("{}"), 0o600), os.WriteFile(names[1], packed.Bytes(), 0o600)); err != nil {
		t.Fatal(err)
	}
	if _, err := kept.Read(folder); err == nil || !strings.Contains(err.Error(), "unpacks to more than 256 MB") {
		t.Error(err)
	}
}
