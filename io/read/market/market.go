package market

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Format is the format line of the files that Parse reads.
const Format = farm.MarketFormat

// Parse returns the market in the text of a file; name stands in messages and,
// without its folder, in the source of each figure. All mistakes of the file are
// reported at once, as an error of type farm.Mistakes. Prices are in the unit of their commodity, whatever unit the file
// states.
func Parse(name string, text []byte) (farm.Market, error) {
	root, err := document.Parse(name, text)
	if err != nil {
		return farm.Market{}, err
	}
	r := &reader{Reader: document.NewReader(name), file: filepath.Base(name), factors: map[crop.Commodity]unitFactor{}, market: empty()}
	if r.Format(root, Format) {
		r.readMarket(root)
	}
	if err := r.Err(); err != nil {
		return farm.Market{}, err
	}
	return r.market, nil
}

// empty returns a market that says nothing.
func empty() farm.Market {
	return farm.Market{
		MYA:         map[crop.Commodity]map[crop.CropYear]farm.Figure{},
		Outlook:     map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{},
		Months:      map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{},
		Correlation: map[crop.Commodity]map[string]float64{},
	}
}

// unitFactor is a unit that the file states, and what turns it into the unit of
// the commodity.
type unitFactor struct {
	unit   string
	factor float64
}

// reader is one reading of a market file.
type reader struct {
	*document.Reader
	file    string
	factors map[crop.Commodity]unitFactor
	market  farm.Market
}

// readMarket reads date, source and units before the prices that need them.
func (r *reader) readMarket(root document.Node) {
	r.Fields(root, "the market",
		document.Must("format", func(document.Node) {}),
		document.Must("as_of", func(v document.Node) { r.market.AsOf, _ = r.Date(v, "as_of") }),
		document.Must("source", func(v document.Node) { r.market.Source, _ = r.Text(v, "source") }),
		document.May("units", func(v document.Node) { r.ByCommodity(v, "units", r.readUnit) }),
		document.May("mya", func(v document.Node) { r.ByCommodity(v, "mya", r.readMYA) }),
		document.May("outlook", func(v document.Node) { r.ByCommodity(v, "outlook", r.readOutlook) }),
		document.May("samples", func(v document.Node) { r.ByCommodity(v, "samples", r.readSamples) }),
		document.May("months", func(v document.Node) { r.ByCommodity(v, "months", r.readMonths) }),
		document.May("correlation", func(v document.Node) { r.ByCommodity(v, "correlation", r.readCorrelation) }))
}

func (r *reader) readUnit(c crop.Commodity, _, v document.Node) {
	unit, ok := r.Text(v, "unit of "+c.Name())
	if !ok {
		return
	}
	factor, ok := c.PriceFactor(unit)
	if !ok {
		r.Refuse(v, fmt.Sprintf("%q is no unit for the price of %s", unit, c.Name()), "it can be "+strings.Join(farm.PriceUnits(c), ", "))
		return
	}
	r.factors[c] = unitFactor{unit, factor}
}

// price reads a price and turns it into the unit of the commodity.
func (r *reader) price(v document.Node, what string, c crop.Commodity) (crop.Price, bool) {
	price, ok := r.Number(v, what)
	if !ok {
		return 0, false
	}
	if stated, ok := r.factors[c]; ok && stated.factor != 1 {
		what += fmt.Sprintf(" (%s %s)", v.Text, stated.unit)
		price = clean(price * stated.factor)
	}
	return price, r.Check(v, farm.CheckPrice(what, c, price))
}

// clean takes the binary noise off a converted price: 535 USD/ton times 1/2000
// is 0.26749999999999996. It rounds nothing that a person would write.
func clean(price crop.Price) crop.Price {
	const decimals = 9
	cleaned, err := strconv.ParseFloat(strconv.FormatFloat(price, 'f', decimals, 64), 64)
	if err != nil {
		return price
	}
	return cleaned
}

// readMYA reads known prices: a number, or a map that says where it is from. They are the
// user's word, so assumed, where the map does not say that an agency printed them.
func (r *reader) readMYA(c crop.Commodity, _, v document.Node) {
	r.market.MYA[c] = document.ByCropYear(r.Reader, v, "mya of "+c.Name(), farm.HistoryYears(), func(v document.Node, what string, y crop.CropYear) (farm.Figure, bool) {
		known := farm.Figure{Status: crop.Assumed, Source: r.source()}
		if v.Kind != document.Map {
			price, ok := r.price(v, what, c)
			known.Value = price
			return known, ok
		}
		r.Fields(v, what,
			document.Must("price", func(v document.Node) { known.Value, _ = r.price(v, "price of "+what, c) }),
			document.May("status", func(v document.Node) {
				known.Status, _ = document.Word(r.Reader, v, "status of "+what, crop.Agency, crop.Assumed)
			}),
			document.May("as_of", func(v document.Node) { r.printed(c, y, v, what) }),
			document.May("source", func(v document.Node) { known.Source = r.ownSource(v, what, known.Source) }))
		if known.Status == crop.Agency && !v.Has("source") {
			r.Refuse(v, what+" is of an agency and names no source", "add the source: which file or page, of which day")
		}
		return known, true
	})
}

// printed reads the day on which a known price was printed.
func (r *reader) printed(c crop.Commodity, y crop.CropYear, v document.Node, what string) {
	day, ok := r.Date(v, "as_of of "+what)
	if !ok {
		return
	}
	if r.market.Printed == nil {
		r.market.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{}
	}
	if r.market.Printed[c] == nil {
		r.market.Printed[c] = map[crop.CropYear]time.Time{}
	}
	r.market.Printed[c][y] = day
}

// ownSource reads where one figure is from, in place of the file's source.
func (r *reader) ownSource(v document.Node, what, otherwise string) string {
	if text, ok := r.Text(v, "source of "+what); ok {
		return r.file + ": " + text
	}
	return otherwise
}

// source says where a figure of this file is from.
func (r *reader) source() string { return r.file + ": " + r.market.Source }

func (r *reader) readOutlook(c crop.Commodity, _, v document.Node) {
	r.market.Outlook[c] = document.ByCropYear(r.Reader, v, "outlook of "+c.Name(), farm.ProgramYears(), func(v document.Node, what string, year crop.CropYear) (farm.PriceOutlook, bool) {
		o := farm.PriceOutlook{AsOf: r.market.AsOf, Figure: farm.Figure{Status: crop.Projected, Source: r.source()}}
		if !r.Check(v, farm.CheckCovered(c, year)) {
			return o, false
		}
		if _, known := r.market.MYA[c][year]; known {
			r.Refuse(v, fmt.Sprintf("%s of crop year %d stands in mya and in outlook", c.Name(), year), "a price is known or projected: take out one of them")
			return o, false
		}
		r.Fields(v, what,
			document.Must("price", func(v document.Node) { o.Value, _ = r.price(v, "price of "+what, c) }),
			document.May("as_of", func(v document.Node) { o.AsOf, _ = r.Date(v, "as_of of "+what) }),
			document.May("source", func(v document.Node) { o.Source = r.ownSource(v, what, o.Source) }),
			document.May("volatility", func(v document.Node) { o.Volatility = r.volatility(v, "volatility of "+what) }),
			document.May("insurance_volatility", func(v document.Node) {
				if o.Volatility != nil {
					r.Refuse(v, what+" has volatility and insurance_volatility", "give one of them")
				}
				o.InsuranceVolatility = r.volatility(v, "insurance_volatility of "+what)
			}))
		return o, true
	})
}

// readSamples reads the user's own list of prices, which stands for a
// projection with its standard deviation.
func (r *reader) readSamples(c crop.Commodity, _, v document.Node) {
	found := document.ByCropYear(r.Reader, v, "samples of "+c.Name(), farm.ProgramYears(), func(v document.Node, what string, year crop.CropYear) (farm.PriceOutlook, bool) {
		o := farm.PriceOutlook{AsOf: r.market.AsOf}
		if !r.Check(v, farm.CheckCovered(c, year)) {
			return o, false
		}
		_, known := r.market.MYA[c][year]
		if _, projected := r.market.Outlook[c][year]; known || projected {
			r.Refuse(v, fmt.Sprintf("%s of crop year %d stands in samples and elsewhere", c.Name(), year), "give its price once: in mya, in outlook or in samples")
			return o, false
		}
		sum, all := 0.0, true
		r.Items(v, what, func(item document.Node) {
			price, ok := r.price(item, fmt.Sprintf("value %d of %s", len(o.Samples)+1, what), c)
			o.Samples, sum, all = append(o.Samples, price), sum+price, all && ok
		})
		if n := len(o.Samples); all && n < farm.LeastSamples {
			r.Refuse(v, fmt.Sprintf("%s has %d values", what, n), fmt.Sprintf("give at least %d, or a price with volatility in outlook", farm.LeastSamples))
			return o, false
		}
		o.Figure = farm.Figure{Value: sum / float64(len(o.Samples)), Status: crop.Assumed, Source: fmt.Sprintf("average of %d own outcomes, %s", len(o.Samples), r.source())}
		return o, all
	})
	if r.market.Outlook[c] == nil {
		r.market.Outlook[c] = map[crop.CropYear]farm.PriceOutlook{}
	}
	maps.Copy(r.market.Outlook[c], found)
}

// volatility reads the standard deviation of the log of the final price over
// the projection.
func (r *reader) volatility(v document.Node, what string) *float64 {
	volatility, ok := r.Number(v, what)
	if !ok {
		return nil
	}
	if volatility < 0 || volatility > 1 {
		r.Refuse(v, fmt.Sprintf("%s is %s", what, v.Text), "it is from 0 to 1; write 20 percent as 0.20")
		return nil
	}
	return &volatility
}

// readCorrelation reads correlations of a price with other prices, kept under
// both commodities, and with the county yields of its own.
func (r *reader) readCorrelation(c crop.Commodity, _, v document.Node) {
	r.Entries(v, "correlation of "+c.Name(), func(key, v document.Node) {
		name := farm.CountyYieldCorrelation
		if key.Text != name {
			other, ok := r.Commodity(key, "correlation of "+c.Name()+" ("+name+" can also stand there)")
			if !ok {
				return
			}
			if other == c {
				r.Refuse(key, c.Name()+" is correlated with itself", "name another crop or "+name)
				return
			}
			name = string(other)
		}
		number, ok := r.Number(v, "correlation of "+c.Name()+" with "+key.Text)
		if !ok {
			return
		}
		if number < -1 || number > 1 {
			r.Refuse(v, fmt.Sprintf("correlation of %s with %s is %s", c.Name(), key.Text, v.Text), "a correlation is from -1 to 1")
			return
		}
		if stated, twice := r.market.Correlation[c][name]; twice && stated != number {
			r.Refuse(v, fmt.Sprintf("correlation of %s with %s is stated twice, as %v and %v", c.Name(), key.Text, stated, number), "state it once; it holds both ways")
			return
		}
		r.correlate(c, name, number)
		if name != farm.CountyYieldCorrelation {
			r.correlate(crop.Commodity(name), string(c), number)
		}
	})
}

func (r *reader) correlate(c crop.Commodity, name string, number float64) {
	if r.market.Correlation[c] == nil {
		r.market.Correlation[c] = map[string]float64{}
	}
	r.market.Correlation[c][name] = number
}

// readMonths reads the months of marketing years that are already known.
func (r *reader) readMonths(c crop.Commodity, _, v document.Node) {
	r.market.Months[c] = document.ByCropYear(r.Reader, v, "months of "+c.Name(), farm.ProgramYears(), func(v document.Node, what string, year crop.CropYear) ([]farm.MonthPrice, bool) {
		if !r.Check(v, farm.CheckCovered(c, year)) {
			return nil, false
		}
		if len(r.market.Outlook[c][year].Samples) > 0 {
			r.Refuse(v, fmt.Sprintf("%s of crop year %d stands in samples and in months", c.Name(), year), "own outcomes cover the whole marketing year: take out the months")
			return nil, false
		}
		var months []farm.MonthPrice
		r.Entries(v, what, func(key, v document.Node) {
			if m, ok := r.readMonth(key, v, what, c, year); ok {
				months = append(months, m)
			}
		})
		sum := 0.0
		for _, m := range months {
			sum += m.Weight
		}
		r.Check(v, farm.CheckTotal("weights in "+what, sum))
		slices.SortFunc(months, func(a, b farm.MonthPrice) int { return a.Month.Compare(b.Month) })
		return months, true
	})
}
