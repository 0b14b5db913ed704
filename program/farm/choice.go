package farm

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/program/crop"
)

// CheckChoice refuses a typed choice that no farm can make: for a crop without base there,
// which is at, and ARC-IC for some of its crops only.
func (f Farm) CheckChoice(y crop.CropYear) (at crop.Commodity, fault *Fault) {
	based, individual := f.Commodities(), 0
	var words []string
	for _, c := range based {
		words = append(words, string(c))
	}
	for _, c := range crop.Commodities() {
		program, has := f.Choice[y][c]
		if has && !slices.Contains(based, c) {
			return c, &Fault{Reason: fmt.Sprintf("choice of farm %s of crop year %d names %s, which has no base there", f.Number, y, c.Name()), Hint: "the farm has base of " + strings.Join(words, ", ")}
		}
		if program == ARCIC {
			individual++
		}
	}
	if individual > 0 && individual < len(based) {
		return "", &Fault{Reason: fmt.Sprintf("choice of farm %s of crop year %d has ARC-IC for some of its crops only", f.Number, y), Hint: "ARC-IC is elected for all covered crops of a farm: write it for each of " + strings.Join(words, ", ") + ", or for none"}
	}
	return "", nil
}

// CheckSigned refuses signatures on a day after today, YYYY-MM-DD: nobody can have given
// them yet.
func (f Farm) CheckSigned(today string) (faults []Fault) {
	for _, y := range slices.Sorted(maps.Keys(f.Signed)) {
		for _, id := range slices.Sorted(maps.Keys(f.Signed[y])) {
			if on := f.Signed[y][id].On; on > today {
				faults = append(faults, Fault{Reason: fmt.Sprintf("farm %s: %s signed for crop year %d on %s, which is after the day of this question, %s", f.Key(), id, y, on, today), Hint: "write the day of the signature under signed, or ask on that day or later (--today)"})
			}
		}
	}
	return faults
}

// Sharing returns the producers with a share in a base of the farm in a crop year; it is
// they who sign.
func (f Farm) Sharing(y crop.CropYear) []string {
	var ids []string
	add := func(shares Shares) {
		for id, share := range shares {
			if share > 0 && !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	whole, _ := f.Shares.In(y)
	for _, b := range f.Bases {
		if b.Shares != nil {
			add(b.Shares)
			continue
		}
		add(whole)
	}
	slices.Sort(ids)
	return ids
}
