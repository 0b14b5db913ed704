package answer

// WholeFarm is the whole farm under two choices of PLC and ARC-CO. A brief answer has it
// in place of the list of elections.
type WholeFarm struct {
	Highest  ChoiceFigures  `json:"highest_mean"`
	OnRecord *ChoiceFigures `json:"on_record"` // null where a commodity has none on record, or the year's law asks for none
}

// ChoiceFigures is one choice, USD in total before share, limit and sequestration. Its
// payments are not rounded to the cent in each scenario: beside an Election they may be
// off by half a cent for each base.
type ChoiceFigures struct {
	Choice Choice   `json:"choice"`
	Mean   Dollars  `json:"mean"`
	P5     *Dollars `json:"p5"` // null where scenarios are too few
	P95    *Dollars `json:"p95"`
}
