package answer

// WholeFarm is the whole farm under two of its choices of PLC and ARC-CO, in a brief
// answer: in place of the list of elections.
type WholeFarm struct {
	Highest  ChoiceFigures  `json:"highest_mean"`
	OnRecord *ChoiceFigures `json:"on_record"` // null where a commodity has none on record, or the year's law asks for none
}

// ChoiceFigures are one choice, USD in total before share, limit and sequestration.
// They are not rounded draw by draw: beside an Election they may be off by half a cent
// for each base.
type ChoiceFigures struct {
	Choice Choice   `json:"choice"`
	Mean   Dollars  `json:"mean"`
	P5     *Dollars `json:"p5"` // null where outcomes are too few
	P95    *Dollars `json:"p95"`
}
