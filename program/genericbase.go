package program

import (
	"fencerow/program/crop"
	"fencerow/program/law"
)

// CountedGenericBase returns by commodity how much of a farm's generic (former
// cotton) base counted as its base in a crop year of 2014-2017: what was planted
// to it, cut in proportion where plantings exceed the generic base.
//
// Source: 7 U.S.C. 9014(b)(1)-(3).
func CountedGenericBase(generic crop.Acres, planted []crop.Acres) []crop.Acres {
	sum := 0.0
	for _, p := range planted {
		sum += p
	}
	counted := make([]crop.Acres, len(planted))
	for i, p := range planted {
		counted[i] = p
		if sum > generic {
			counted[i] = generic * p / sum
		}
	}
	return counted
}

// SeedCottonBase returns how generic base became seed cotton base and unassigned
// base in 2018: a share of it (80 percent) or the average seed cotton acres of
// 2009-2012, whichever is more, up to all of it; the rest earns nothing. It is
// also what happened where the owner did nothing. A farm without covered
// plantings in 2009-2016 keeps all of it unassigned.
//
// Source: 7 U.S.C. 9014(b)(4).
func SeedCottonBase(generic, averageSeedCotton crop.Acres, share crop.Share, coveredPlanted bool) (seedCotton, unassigned crop.Acres) {
	if !coveredPlanted {
		return 0, generic
	}
	seedCotton = min(generic, max(share*generic, averageSeedCotton))
	return seedCotton, generic - seedCotton
}

// GenericToSeedCotton returns that share.
func GenericToSeedCotton(y crop.CropYear) (crop.Share, error) {
	row, err := law.Find("generic_to_seed_cotton_share", "", y)
	return row.Number, err
}
