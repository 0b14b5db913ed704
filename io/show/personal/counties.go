package personal

import (
	"slices"
	"strings"

	"fencerow/io/show/wording"
)

// inCounties says in which counties each of the person's farms has base, farms with the
// same counties together; "" for more farms than are named.
func (r *reader) inCounties() string {
	var farms []string
	counties := map[string][]string{}
	for _, l := range r.lines {
		number := wording.Farm(l.Farm, r.year.Farms)
		if !slices.Contains(farms, number) {
			farms = append(farms, number)
		}
		for _, b := range l.crop.Bases {
			if name := wording.County(b); b.BaseAcres > 0 && !slices.Contains(counties[number], name) {
				counties[number] = append(counties[number], name)
			}
		}
	}
	if len(farms) > mostNamed {
		return ""
	}
	var byCounties doubts
	for _, number := range farms {
		if names := counties[number]; len(names) > 0 {
			byCounties.put(number, joinedCounties(slices.Sorted(slices.Values(names))))
		}
	}
	var said []string
	for _, d := range byCounties {
		has := " has"
		if len(d.years) > 1 {
			has = " have"
		}
		said = append(said, onFarms(d.years)+has+" base in "+d.said+".")
	}
	return strings.Join(said, " ")
}

// joinedCounties lists counties, with their common word once: "Alder and Birch County".
func joinedCounties(names []string) string {
	const word = " County"
	short := slices.Clone(names)
	for i, name := range names {
		if !strings.HasSuffix(name, word) {
			return wording.Joined(names)
		}
		if i < len(names)-1 {
			short[i] = strings.TrimSuffix(name, word)
		}
	}
	return wording.Joined(short)
}
