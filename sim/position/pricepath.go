package position

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// WithPath returns the market with projections of later crop years. The built-in path
// of prices gives their changes; the newest projection (crop year y0) gives their
// level, the less the later the year:
//
//	F(y) = path(y) x (F(y0) / path(y0)) ^ (phi ^ (y - y0))
//
// A commodity without a path, or without a projection in a year of the path, gets
// none. Each has the date of the projection at y0.
func WithPath(m farm.Market) farm.Market {
	out := m
	out.Outlook = map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}
	for c, years := range m.Outlook {
		out.Outlook[c] = maps.Clone(years)
	}
	for c, path := range m.Path {
		anchor, stated, ok := latestProjection(m, c)
		if !ok {
			continue
		}
		off := stated.Value / path[anchor].Value
		for _, y := range slices.Sorted(maps.Keys(path)) {
			if y <= anchor {
				continue
			}
			price := path[y].Value * math.Pow(off, math.Pow(odds.Persistence(), float64(y-anchor)))
			if decimals, err := PriceDecimals(c, y); err == nil {
				price = program.Round(price, decimals)
			}
			out.Outlook[c][y] = farm.PriceOutlook{AsOf: stated.AsOf, Figure: farm.Figure{Value: price, Status: crop.Projected,
				Source: fmt.Sprintf("path of %s. It is moved to %s for crop year %d", path[y].Source, formatPrice(stated.Value, 2), anchor)}}
		}
	}
	return out
}

// latestProjection returns the latest crop year of the path that has a projection, and
// that projection.
func latestProjection(m farm.Market, c crop.Commodity) (anchor crop.CropYear, stated farm.PriceOutlook, ok bool) {
	for y, o := range m.Outlook[c] {
		if _, on := m.Path[c][y]; on && y >= anchor {
			anchor, stated, ok = y, o, true
		}
	}
	return anchor, stated, ok
}
