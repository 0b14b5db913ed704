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

// WithPath returns the market with projections for later years on the built-in
// path, re-anchored to the latest projection there is:
//
//	F(y) = path(y) x (F(y0) / path(y0)) ^ (phi ^ (y - y0))
//
// so that today's price counts less the further off the year is. A commodity
// without a path, or without a projection of a year on it, gets none. The date of
// a projection so made is that of its anchor.
func WithPath(m farm.Market) farm.Market {
	out := m
	out.Outlook = map[crop.Commodity]map[crop.CropYear]farm.PriceOutlook{}
	for c, years := range m.Outlook {
		out.Outlook[c] = maps.Clone(years)
	}
	for c, path := range m.Path {
		anchor, told, ok := latestProjection(m, c)
		if !ok {
			continue
		}
		off := told.Value / path[anchor].Value
		for _, y := range slices.Sorted(maps.Keys(path)) {
			if y <= anchor {
				continue
			}
			price := path[y].Value * math.Pow(off, math.Pow(odds.Persistence(), float64(y-anchor)))
			if decimals, err := PriceDecimals(c, y); err == nil {
				price = program.Round(price, decimals)
			}
			out.Outlook[c][y] = farm.PriceOutlook{AsOf: told.AsOf, Figure: farm.Figure{Value: price, Status: crop.Projected,
				Source: fmt.Sprintf("path of %s, moved to %s for crop year %d", path[y].Source, formatPrice(told.Value, 2), anchor)}}
		}
	}
	return out
}

// latestProjection returns the latest crop year on the path with a projection.
func latestProjection(m farm.Market, c crop.Commodity) (anchor crop.CropYear, told farm.PriceOutlook, ok bool) {
	for y, o := range m.Outlook[c] {
		if _, on := m.Path[c][y]; on && y >= anchor {
			anchor, told, ok = y, o, true
		}
	}
	return anchor, told, ok
}
