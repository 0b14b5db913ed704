package farm

import "fencerow/program/crop"

// Figure is a number together with how far it can be trusted and where it is from.
type Figure struct {
	Value  float64
	Status crop.Status
	Source string // in words, for people: title, publisher, date, or a file name
}
