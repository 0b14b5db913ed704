package position

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// sharesOf returns the producers' shares in a base in a crop year: the base's own,
// else the farm's.
func sharesOf(f farm.Farm, base farm.Base, y crop.CropYear) farm.Shares {
	if base.Shares != nil {
		return base.Shares
	}
	shares, _ := f.Shares.In(y)
	return shares
}

// HasShare reports whether a producer has a share in any base of a farm.
func HasShare(f farm.Farm, id string, y crop.CropYear) bool {
	for _, b := range f.Bases {
		if sharesOf(f, b, y)[id] > 0 {
			return true
		}
	}
	return false
}
