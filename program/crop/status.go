package crop

// Status says how far a figure can be trusted.
type Status string

// The six words. A figure whose status is none of the first three is marked
// wherever it is shown.
const (
	Law        Status = "law"        // statute or regulation
	Agency     Status = "agency"     // published by the agency as final
	Computed   Status = "computed"   // our arithmetic on law and agency figures
	Projected  Status = "projected"  // a forecast, or computed from one
	Assumed    Status = "assumed"    // a judgement or a default of this program
	Unverified Status = "unverified" // not confirmed in an opened primary text
)

// rank orders the words from firm to doubtful.
var rank = map[Status]int{Law: 0, Agency: 1, Computed: 2, Projected: 3, Assumed: 4, Unverified: 5}

// Known reports whether s is one of the six words.
func (s Status) Known() bool { _, ok := rank[s]; return ok }

// Marked reports whether a figure of this status must be marked when shown.
func (s Status) Marked() bool { return rank[s] > rank[Computed] }

// Weakest returns the most doubtful of the statuses: a computed figure is no
// firmer than what it was computed from. With none it returns Law.
func Weakest(statuses ...Status) Status {
	weakest := Law
	for _, s := range statuses {
		if rank[s] > rank[weakest] {
			weakest = s
		}
	}
	return weakest
}

// ComputedFrom returns the status of a figure computed from others: Computed,
// or the most doubtful of theirs where one must be marked.
func ComputedFrom(statuses ...Status) Status {
	return Weakest(append(statuses, Computed)...)
}
