package market

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

//go:embed builtin.csv
var builtinFile string

//go:embed path.csv
var pathFile string

//go:embed series.csv
var seriesFile string

//go:embed sources.csv
var sourceFile string

const (
	pathHeader    = "commodity,crop_year,value,unit,source,as_of"
	builtinHeader = "commodity,crop_year,value,unit,status,source,as_of,note"
	sourceHeader  = "key,title,publisher,date,address"
)

// newestSource is the key of the document whose date is that of the built-in
// market: the last one its projections are from.
const newestSource = "WASDE-675"

// Builtin returns the national prices that the program carries: final prices of
// crop years 2009 on as FSA first printed them, or as NASS and WASDE print them
// where FSA has not; and the projections of WASDE-675 of 11 September 2026, or
// of FSA's last table. Final prices stand in MYA with status agency,
// projections in Outlook with the date of their document. What no opened
// document prices is left out: seed cotton, medium grain rice and most minor
// crops after 2024. Prices that these follow stand beside them under the keys of
// crop.Series.
//
// Each call returns maps of its own. Sources: builtin.csv and sources.csv.
func Builtin() farm.Market {
	market, err := parseBuiltin(builtinFile, sourceFile)
	if err != nil {
		panic("io/read/market: " + err.Error()) // the files are part of the program; a test reads them
	}
	return market
}

func parseBuiltin(prices, sources string) (farm.Market, error) {
	words, err := parseSources(sources)
	if err != nil {
		return farm.Market{}, err
	}
	market := empty()
	market.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{}
	read := func(row []string) error {
		key := row[5]
		if words[key] == "" {
			return fmt.Errorf("source %q is not in sources.csv", key)
		}
		asOf, err := time.Parse(time.DateOnly, row[6])
		if err != nil {
			return err
		}
		if key == newestSource {
			market.AsOf, market.Source = asOf, "WASDE-675, USDA Office of the Chief Economist, 11 September 2026"
		}
		return addRow(market, row, words[key], asOf)
	}
	if err := eachRow("builtin.csv", prices, builtinHeader, read); err != nil {
		return market, err
	}
	if err := eachRow("series.csv", seriesFile, builtinHeader, read); err != nil {
		return market, err
	}
	market.Path = map[crop.Commodity]map[crop.CropYear]farm.Figure{}
	return market, addPath(market.Path, words)
}

// addPath adds the path of prices of later years, in which only the changes
// from year to year are used (sim/answer).
func addPath(path map[crop.Commodity]map[crop.CropYear]farm.Figure, words map[string]string) error {
	return eachRow("path.csv", pathFile, pathHeader, func(row []string) error {
		c, year, price, err := priceOf(row)
		if err != nil {
			return err
		}
		if words[row[4]] == "" {
			return fmt.Errorf("source %q is not in sources.csv", row[4])
		}
		if path[c] == nil {
			path[c] = map[crop.CropYear]farm.Figure{}
		}
		path[c][year] = farm.Figure{Value: price, Status: crop.Projected, Source: words[row[4]]}
		return nil
	})
}

// priceOf reads the first columns of both files: commodity, crop year, price and
// its unit, which must be the commodity's.
func priceOf(row []string) (c crop.Commodity, year crop.CropYear, price crop.Price, err error) {
	c = crop.Commodity(row[0])
	if c.Index() < 0 && !slices.Contains(crop.Series(), c) {
		return c, year, price, fmt.Errorf("unknown crop %q", row[0])
	}
	if year, err = strconv.Atoi(row[1]); err != nil {
		return c, year, price, err
	}
	if price, err = strconv.ParseFloat(row[2], 64); err != nil {
		return c, year, price, err
	}
	if row[3] != c.Unit().Price() {
		return c, year, price, fmt.Errorf("%s is in %s, not %s", c, row[3], c.Unit().Price())
	}
	if c.Index() < 0 { // a series, whose bounds no reference price gives; a test holds it to the report
		return c, year, price, nil
	}
	if fault := farm.CheckPrice(string(c), c, price); fault != nil {
		return c, year, price, fmt.Errorf("%s", fault.Reason)
	}
	return c, year, price, nil
}

// addRow adds one price to the market.
func addRow(market farm.Market, row []string, source string, asOf time.Time) error {
	c, year, price, err := priceOf(row)
	if err != nil {
		return err
	}
	_, projected := market.Outlook[c][year]
	if _, known := market.MYA[c][year]; known || projected {
		return fmt.Errorf("%s of crop year %d stands twice", c, year)
	}
	figure := farm.Figure{Value: price, Status: crop.Status(row[4]), Source: source}
	switch figure.Status {
	case crop.Agency:
		if market.MYA[c] == nil {
			market.MYA[c], market.Printed[c] = map[crop.CropYear]farm.Figure{}, map[crop.CropYear]time.Time{}
		}
		market.MYA[c][year], market.Printed[c][year] = figure, asOf
	case crop.Projected:
		if market.Outlook[c] == nil {
			market.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
		}
		market.Outlook[c][year] = farm.PriceOutlook{Figure: figure, AsOf: asOf}
	default:
		return fmt.Errorf("status %q is neither agency nor projected", row[4])
	}
	return nil
}

// parseSources returns each source in words, by its key.
func parseSources(text string) (map[string]string, error) {
	words := map[string]string{}
	err := eachRow("sources.csv", text, sourceHeader, func(row []string) error {
		if slices.Contains(row, "") || words[row[0]] != "" {
			return fmt.Errorf("source %q is incomplete or stands twice", row[0])
		}
		words[row[0]] = fmt.Sprintf("%s, %s, %s", row[1], row[2], row[3])
		return nil
	})
	return words, err
}

func eachRow(name, text, header string, read func(row []string) error) error {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != header {
		return fmt.Errorf("%s: the columns are not %q", name, header)
	}
	for i, row := range rows[1:] {
		if err := read(row); err != nil {
			return fmt.Errorf("%s row %d: %w", name, i+1, err)
		}
	}
	return nil
}
