package answer

import "fencerow/program/farm"

// sources are what the figures of a question are looked up in.
type sources struct {
	Counties  farm.CountyBook
	Market    farm.Market
	PastYears bool // county yields are those of whole past years, drawn again
}
