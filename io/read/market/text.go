package market

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Text returns a market file that keeps the prices of a market as they are: every
// projection and month with its date and source, and the known prices that the built-in
// ones do not have. Parse reads it; what was imported later does not change what it says.
// The same market gives the same bytes.
func Text(m farm.Market) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "format: %s\nas_of: %s\nsource: %s\n", Format, m.AsOf.Format(time.DateOnly), strconv.Quote(m.Source))
	block(&b, "mya", notBuiltIn(m.MYA), func(c crop.Commodity, y crop.CropYear, f farm.Figure) {
		fmt.Fprintf(&b, "{price: %s, status: %s, as_of: %s, source: %q}\n", plain(f.Value), f.Status, m.PriceDate(c, y).Format(time.DateOnly), f.Source)
	})
	block(&b, "outlook", m.Outlook, func(_ crop.Commodity, _ crop.CropYear, o farm.PriceOutlook) {
		fmt.Fprintf(&b, "{price: %s, as_of: %s, source: %q}\n", plain(o.Value), o.AsOf.Format(time.DateOnly), o.Source)
	})
	block(&b, "months", m.Months, func(_ crop.Commodity, _ crop.CropYear, months []farm.MonthPrice) {
		b.WriteString("\n")
		for _, month := range months {
			from := ""
			if month.WeightFrom != "" {
				from = fmt.Sprintf(", weight_from: %q", month.WeightFrom)
			}
			fmt.Fprintf(&b, "      %s: {price: %s, weight: %s%s}\n", month.Month.Format("2006-01"), plain(month.Price), plain(month.Weight), from)
		}
	})
	return b.Bytes()
}

// block writes one key of a market file with an entry for each commodity and crop year,
// in the agency's order; nothing where there is none.
func block[V any](b *bytes.Buffer, key string, by map[crop.Commodity]map[crop.CropYear]V, entry func(crop.Commodity, crop.CropYear, V)) {
	headed := false
	for _, c := range crop.Commodities() {
		if len(by[c]) == 0 {
			continue
		}
		if !headed {
			fmt.Fprintf(b, "%s:\n", key)
			headed = true
		}
		fmt.Fprintf(b, "  %s:\n", c)
		for _, y := range slices.Sorted(maps.Keys(by[c])) {
			fmt.Fprintf(b, "    %d: ", y)
			entry(c, y, by[c][y])
		}
	}
}

// notBuiltIn leaves out the known prices that the built-in market has.
func notBuiltIn(all map[crop.Commodity]map[crop.CropYear]farm.Figure) map[crop.Commodity]map[crop.CropYear]farm.Figure {
	builtIn := Builtin().MYA
	left := map[crop.Commodity]map[crop.CropYear]farm.Figure{}
	for c, years := range all {
		for y, f := range years {
			if f == builtIn[c][y] {
				continue
			}
			if left[c] == nil {
				left[c] = map[crop.CropYear]farm.Figure{}
			}
			left[c][y] = f
		}
	}
	return left
}

// plain writes a figure with all its digits and no power of ten.
func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
