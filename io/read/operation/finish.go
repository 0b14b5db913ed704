package operation

import (
	"fmt"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// finish checks what needs the whole farm, gives it its default shares and adds
// it to the operation.
func (r *reader) finish(item document.Node, f *farm.Farm, what string) {
	if bases := item.Get("bases"); bases.Kind == document.List && len(bases.Items) == 0 && len(f.Planted) == 0 && f.Unassigned == 0 {
		r.Refuse(bases, what+" has no base", "add a base (commodity, base_acres, payment_yield), or plantings that can add new base")
	}
	r.completeShares(item, f, what)
	r.checkDecided(item, f, what)
	if f.Number == "" || f.County == "" {
		return
	}
	if line, twice := r.farms[f.Key()]; twice {
		r.Refuse(item.Get("farm"), fmt.Sprintf("%s of county %s stands twice", what, f.County), fmt.Sprintf("it is also on line %d; put all bases of a farm under one entry", line))
		return
	}
	r.farms[f.Key()] = item.Line
	r.operation.Farms = append(r.operation.Farms, *f)
}

// completeShares gives all of a farm without shares to the only producer; with
// several, shares have to be stated, for every crop year asked about.
func (r *reader) completeShares(item document.Node, f *farm.Farm, what string) {
	if item.Kind != document.Map {
		return // refused already
	}
	if !item.Has("shares") {
		switch {
		case len(r.operation.Producers) == 1:
			all := farm.Shares{r.operation.Producers[0].ID: 1}
			f.Shares.Every = &all
		case len(f.Bases) == 0 || !everyBaseHasShares(f.Bases):
			r.Refuse(item, what+" has no shares, and the file has several producers", "add shares: {producer: part of the crop} to the farm or to each base")
		}
		return
	}
	if f.Shares.Every != nil || everyBaseHasShares(f.Bases) {
		return
	}
	for _, year := range r.operation.CropYears {
		if _, ok := f.Shares.In(year); !ok && !refusedYear(item, year) {
			r.Refuse(item.Get("shares"), fmt.Sprintf("shares of %s say nothing of crop year %d", what, year), "crop_years asks about it: add its shares, or take it out")
		}
	}
}

func everyBaseHasShares(bases []farm.Base) bool {
	for _, b := range bases {
		if b.Shares == nil {
			return false
		}
	}
	return len(bases) > 0
}

// refusedYear reports whether the shares of a crop year stand in the file, so
// that their mistakes are reported already.
func refusedYear(item document.Node, year crop.CropYear) bool {
	return item.Get("shares").Has(fmt.Sprint(year))
}
