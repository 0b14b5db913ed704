package site

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"fencerow/io/read/county"
	"fencerow/io/read/market"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// pricesName is the market file of prices that a visitor types in place of ours.
const pricesName = "prices.yaml"

// typedOn says who gave a figure of these files.
const typedOn = "typed on the page"

// hasPrices reports whether a price is typed.
func (d *draft) hasPrices() bool {
	return slices.ContainsFunc(slices.Collect(maps.Keys(d.known)), func(name string) bool { return strings.HasPrefix(name, "p.") })
}

// hasMarket reports whether the visitor gave prices, typed or as a file.
func (d *draft) hasMarket() bool { return d.market != "" || d.hasPrices() }

// prices writes the typed prices as a market file: p.corn.2026.
func (d *draft) prices(today time.Time) *written {
	w := &written{fields: map[int]string{}}
	w.line("", "format: %s", market.Format)
	w.line("", "as_of: %s", today.Format(time.DateOnly))
	w.line("", "source: %s", typedOn)
	w.line("", "outlook:")
	last := ""
	for _, name := range slices.Sorted(maps.Keys(d.known)) {
		part := strings.Split(name, ".")
		if part[0] != "p" || len(part) != 3 {
			continue
		}
		if part[1] != last {
			w.line("", "  %s:", quoted(part[1]))
		}
		last = part[1]
		w.line(name, "    %s: {price: %s}", part[2], figure(strings.TrimPrefix(d.known[name], "$")))
	}
	return w
}

// marketText is the market file of a question: the typed prices over those of the file that
// was opened, or else of the site; nil where none of them is there.
func (s *Site) marketText(d draft) ([]byte, *written, error) {
	below := s.Market
	if d.market != "" {
		below = []byte(d.market)
	}
	if !d.hasPrices() {
		return below, nil, nil
	}
	w := d.prices(s.Today)
	typed, err := market.Parse(pricesName, []byte(w.text.String()))
	if err != nil || below == nil {
		return []byte(w.text.String()), w, err
	}
	all, err := market.Parse(pricesName, below)
	if err != nil {
		return nil, w, err
	}
	for c, years := range typed.Outlook {
		for y, o := range years {
			if all.Outlook[c] == nil {
				all.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
			}
			all.Outlook[c][y] = o
			delete(all.Months[c], y)
		}
	}
	return market.Text(all), w, nil
}

// yieldKey takes the name of a typed county yield apart: y.99001.corn.all.2026.
func yieldKey(name string) (code, rest string, ok bool) {
	part := strings.Split(name, ".")
	if len(part) != 5 || part[0] != "y" {
		return "", "", false
	}
	return part[1], strings.Join(part[1:], "."), true
}

// counties are the codes of counties of which a yield is typed.
func (d *draft) counties() (codes []string) {
	for _, name := range slices.Sorted(maps.Keys(d.known)) {
		if code, _, ok := yieldKey(name); ok && !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	return codes
}

func countyFileName(code string) string { return "county-" + code + ".yaml" }

// countyFileNames are the county files of the typed county yields.
func (d *draft) countyFileNames() (names []string) {
	for _, code := range d.counties() {
		names = append(names, countyFileName(code))
	}
	return names
}

// countyFile writes the typed yields of a county.
func (d *draft) countyFile(code string) *written {
	w := &written{fields: map[int]string{}}
	w.line("", "format: %s", county.Format)
	w.line("", "code: %s", quoted(code))
	w.line("", "yields:")
	for _, name := range slices.Sorted(maps.Keys(d.known)) {
		of, rest, ok := yieldKey(name)
		if !ok || of != code {
			continue
		}
		part := strings.Split(rest, ".")
		w.line(name, "  - commodity: %s", quoted(part[1]))
		w.line(name, "    practice: %s", quoted(part[2]))
		w.line(name, "    outlook:")
		w.line(name, "      %s:", part[3])
		w.line(name, "        yield: %s", figure(d.known[name]))
		if stage := d.known["s."+rest]; stage != "" {
			w.line("s."+rest, "        known_from: %s", quoted(stage))
		}
	}
	return w
}

// yieldField and priceField name the fields of a county yield and a price.
func yieldField(code string, c crop.Commodity, p farm.Practice, y crop.CropYear) string {
	return fmt.Sprintf("y.%s.%s.%s.%d", code, c, p, y)
}

func priceField(c crop.Commodity, y crop.CropYear) string { return fmt.Sprintf("p.%s.%d", c, y) }
