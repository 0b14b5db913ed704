// Command county_files writes a county file for each county of a county book, so that batch
// can be timed on the book and on files that say the same:
//
//	go run ./testdata/peers/county_files BOOK FOLDER
//
// An agency's figure wins over those of the agencies after it, as in the book. Figures that a
// county file cannot hold become a history (yields insured) or are left out (typing errors of
// the agency's table, which a county file refuses).
package main

import (
	"cmp"
	"fmt"
	"log"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fencerow/io/read/book"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) != 3 {
		log.Fatal("usage: county_files BOOK FOLDER")
	}
	if err := write(os.Args[1], os.Args[2]); err != nil {
		log.Fatal(err)
	}
}

// entry is what stands once in a county file.
type entry struct {
	commodity crop.Commodity
	practice  farm.Practice
}

func write(path, folder string) error {
	b, err := book.Open(path, false)
	if err != nil {
		return err
	}
	defer b.Close()
	sources, err := b.Sources("")
	if err != nil {
		return err
	}
	counties := map[string]map[entry]farm.CountyYield{}
	for _, source := range sources {
		for code, county := range source.Counties {
			if counties[code] == nil {
				counties[code] = map[entry]farm.CountyYield{}
			}
			for _, y := range county.Yields {
				at := entry{y.Commodity, y.Practice}
				counties[code][at] = joined(counties[code][at], y)
			}
		}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for code, yields := range counties {
		if err := os.WriteFile(filepath.Join(folder, code+".yaml"), []byte(text(code, yields)), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// joined adds what one source says to what those before it say.
func joined(y, more farm.CountyYield) farm.CountyYield {
	return farm.CountyYield{
		Adjusted: filled(y.Adjusted, more.Adjusted), BenchmarkYield: filled(y.BenchmarkYield, more.BenchmarkYield), Actual: filled(y.Actual, more.Actual),
		Plug: filled(y.Plug, more.Plug), History: filled(filled(filled(y.History, more.History), more.Insured), more.Harvested),
	}
}

func filled[V any](first, more map[crop.CropYear]V) map[crop.CropYear]V {
	all := map[crop.CropYear]V{}
	maps.Copy(all, more)
	maps.Copy(all, first)
	return all
}

// text is a county file.
func text(code string, yields map[entry]farm.CountyYield) string {
	var out strings.Builder
	fmt.Fprintf(&out, "format: fencerow/county/1\ncode: %q\nyields:\n", code)
	order := slices.SortedFunc(maps.Keys(yields), func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.commodity, b.commodity), cmp.Compare(a.practice, b.practice))
	})
	for _, at := range order {
		y := yields[at]
		fmt.Fprintf(&out, "  - commodity: %s\n    practice: %s\n", at.commodity, at.practice)
		var five []string
		for _, year := range slices.Sorted(maps.Keys(y.Adjusted)) {
			var said []string
			plausible := true
			for _, one := range y.Adjusted[year] {
				said = append(said, number(one))
				plausible = plausible && farm.CheckYield("", at.commodity, farm.Usual, one) == nil
			}
			if plausible {
				five = append(five, fmt.Sprintf("%d: [%s]", year, strings.Join(said, ", ")))
			}
		}
		line(&out, "adjusted", five)
		line(&out, "benchmark_yield", series(at.commodity, farm.Usual, y.BenchmarkYield))
		line(&out, "actual", series(at.commodity, farm.Harvested, y.Actual))
		line(&out, "plug", series(at.commodity, farm.Usual, y.Plug))
		line(&out, "history", series(at.commodity, farm.Harvested, y.History))
	}
	return out.String()
}

func series(c crop.Commodity, kind farm.YieldKind, of map[crop.CropYear]crop.Yield) (said []string) {
	for _, year := range slices.Sorted(maps.Keys(of)) {
		if farm.CheckYield("", c, kind, of[year]) == nil {
			said = append(said, fmt.Sprintf("%d: %s", year, number(of[year])))
		}
	}
	return said
}

func line(out *strings.Builder, key string, values []string) {
	if len(values) > 0 {
		fmt.Fprintf(out, "    %s: {%s}\n", key, strings.Join(values, ", "))
	}
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
