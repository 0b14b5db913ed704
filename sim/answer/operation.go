package answer

// AcrossPart is what one limit leaves a person across several operations, USD, each with
// the choices it has by itself.
type AcrossPart struct {
	Operations     int     `json:"operations"`
	Alone          Dollars `json:"mean_each_alone"` // USD after limit and sequestration, each operation with a limit of its own
	MeanAfterLimit Dollars `json:"mean_across"`     // with one limit
	Part           Dollars `json:"part_across"`     // of it for this operation, as it pays by itself
	ChanceOfLimit  Chance  `json:"chance_of_limit_across"`
}
