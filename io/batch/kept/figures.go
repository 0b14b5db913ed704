package kept

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"fencerow/program/farm"
)

// Figures are what the answers of a run rest on beside its table.
type Figures struct {
	Market   farm.Market
	Counties farm.CountyBook
	Law      [][]string // lines of law.csv without its headings: id, commodity, first and last crop year, value
}

// Files of the folder figures.
const (
	marketName = "market.json"
	countyName = "counties.json.gz"
	lawName    = "law.csv"
)

// Names are the files that Write writes under a folder.
func Names(folder string) (names []string) {
	for _, name := range []string{marketName, countyName, lawName} {
		names = append(names, filepath.Join(folder, "figures", name))
	}
	return names
}

// Write writes figures under the folder of a run; write writes one file. The same figures
// give the same bytes.
func Write(folder string, all Figures, write func(path string, do func(io.Writer) error) error) error {
	names := Names(folder)
	for i, do := range []func(io.Writer) error{
		func(w io.Writer) error { return json.NewEncoder(w).Encode(all.Market) },
		func(w io.Writer) error { return writePacked(w, all.Counties) },
		func(w io.Writer) error {
			out := csv.NewWriter(w)
			if err := out.Write(lawColumns); err != nil {
				return err
			}
			return out.WriteAll(all.Law)
		},
	} {
		if err := write(names[i], do); err != nil {
			return err
		}
	}
	return nil
}

func writePacked(w io.Writer, book farm.CountyBook) error {
	packed := gzip.NewWriter(w)
	out := bufio.NewWriter(packed)
	if err := writeBook(out, book); err != nil {
		return err
	}
	if err := out.Flush(); err != nil {
		return err
	}
	return packed.Close()
}

// writeBook writes a book as json.Encoder does, county by county: all at once it would take as
// much memory again as the book.
func writeBook(w *bufio.Writer, book farm.CountyBook) error {
	w.WriteString("[")
	for i, source := range book {
		if i > 0 {
			w.WriteString(",")
		}
		counties := source.Counties
		source.Counties = map[string]farm.County{}
		head, err := json.Marshal(source)
		if err != nil {
			return err
		}
		begun, ok := bytes.CutSuffix(head, []byte("}}")) // Counties is the last
		if !ok {
			return fmt.Errorf("a source of counties ends in %.20s", head)
		}
		w.Write(begun)
		if err := writeCounties(w, counties); err != nil {
			return err
		}
		w.WriteString("}}")
	}
	_, err := w.WriteString("]\n") // an error of any write comes back from all that follow
	return err
}

func writeCounties(w *bufio.Writer, counties map[string]farm.County) error {
	for i, code := range slices.Sorted(maps.Keys(counties)) {
		if i > 0 {
			w.WriteString(",")
		}
		key, err := json.Marshal(code)
		if err != nil {
			return err
		}
		county, err := json.Marshal(counties[code])
		if err != nil {
			return err
		}
		w.Write(key)
		w.WriteString(":")
		w.Write(county)
	}
	return nil
}

// Read reads what Write wrote. The error is that of a file which is missing or broken.
func Read(folder string) (all Figures, err error) {
	names := Names(folder)
	for i, read := range []func(io.Reader) error{
		func(r io.Reader) error { return json.NewDecoder(r).Decode(&all.Market) },
		func(r io.Reader) error { return readPacked(r, &all.Counties) },
		func(r io.Reader) error {
			lines, err := csv.NewReader(r).ReadAll()
			if err == nil && len(lines) > 0 {
				all.Law = lines[1:]
			}
			return err
		},
	} {
		if err := readFile(names[i], read); err != nil {
			return all, err
		}
	}
	return all, nil
}

func readFile(name string, read func(io.Reader) error) error {
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	if err := read(file); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

// mostCounties is how many bytes of counties are unpacked: those of the whole nation have
// some 30 MB.
const mostCounties = 256 << 20

func readPacked(r io.Reader, book *farm.CountyBook) error {
	packed, err := gzip.NewReader(r)
	if err != nil {
		return err
	}
	bounded := &io.LimitedReader{R: packed, N: mostCounties}
	if err = json.NewDecoder(bounded).Decode(book); err != nil && bounded.N <= 0 {
		return fmt.Errorf("it unpacks to more than %d MB", mostCounties>>20)
	}
	return err
}

// StateOf is the State of a county, by two digits; "" where there is no code.
func StateOf(county string) string { return county[:min(len(county), 2)] }

// OfStates returns a book with the counties of some States alone, its sources in their
// order: no answer needs a county of another State than its farm's.
func OfStates(book farm.CountyBook, states map[string]bool) farm.CountyBook {
	some := farm.CountyBook{}
	for _, source := range book {
		counties := map[string]farm.County{}
		for code, county := range source.Counties {
			if states[StateOf(code)] {
				counties[code] = county
			}
		}
		source.Counties = counties
		some = append(some, source)
	}
	return some
}
