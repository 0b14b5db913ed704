package countyname

import (
	"cmp"
	"slices"
	"strings"
)

// longestName is the length in letters beyond which nothing is near: no county has
// so long a name.
const longestName = 60

// near are up to three counties near to any reading, the nearest first, then in the
// order of their codes; none is more than one slip farther than the nearest. A slip is a
// letter to insert, delete, replace or swap with its neighbor; another State than the one
// written counts as one, and so does taking the State that was written for a part of the
// name.
func (g *gazetteer) near(ways []reading) (found []int) {
	slips := map[int]int{}
	for _, way := range ways {
		if len(way.name) > longestName || way.name == "" {
			continue
		}
		for i := range g.counties {
			n, ok := g.slips(way, i)
			if way.state == "" && len(ways) > 1 {
				n++
			}
			if before, has := slips[i]; ok && (!has || n < before) {
				slips[i] = n
			}
		}
	}
	for i := range slips {
		found = append(found, i)
	}
	slices.SortFunc(found, func(a, b int) int { return cmp.Or(cmp.Compare(slips[a], slips[b]), cmp.Compare(a, b)) })
	found = slices.DeleteFunc(found, func(i int) bool { return slips[i] > slips[found[0]]+1 })
	return found[:min(len(found), mostSuggested)]
}

// slips counts how far a reading is from the nearest spelling of a county; ok is
// false where that is more than two letters and more than one in three. A county
// whose name begins or ends so is as near as two slips.
func (g *gazetteer) slips(way reading, i int) (least int, ok bool) {
	for _, name := range g.folded[i] {
		limit := max(2, max(len(way.name), len(name))/3)
		n := limit + 1
		if longer := len(name) - len(way.name); max(longer, -longer) <= limit {
			n = changes(way.name, name)
		}
		if begins(way.name, name) {
			n = min(n, 2)
		}
		if n <= limit && (!ok || n < least) {
			least, ok = n, true
		}
	}
	if way.state != "" && way.state != g.counties[i].state() {
		least++
	}
	return least, ok
}

// begins reports whether one of two names, both of four letters or more, begins or ends
// the other.
func begins(typed, name string) bool {
	return len(typed) > 3 && (strings.HasPrefix(name, typed) || strings.HasSuffix(name, typed) || len(name) > 3 && strings.HasPrefix(typed, name))
}

// changes is the number of letters to insert, delete, replace or swap with their
// neighbor to turn a into b.
func changes(a, b string) int {
	rows := [][]int{make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)}
	for j := range rows[1] {
		rows[1][j] = j
	}
	for i := range len(a) {
		before, last, row := rows[0], rows[1], rows[2]
		row[0] = i + 1
		for j := range len(b) {
			replace := last[j]
			if a[i] != b[j] {
				replace++
			}
			row[j+1] = min(replace, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		rows[0], rows[1], rows[2] = last, row, before
	}
	return rows[1][len(b)]
}

// Suggest returns up to so many counties that FSA's newest tables have and whose name
// begins with the letters typed, as "Story, Iowa", in the order of their codes.
func Suggest(typed string, most int) (names []string) {
	letters := joined(words(typed))
	if letters == "" {
		return nil
	}
	for i, c := range loaded().counties {
		if len(names) == most {
			break
		}
		if c.newest > 0 && slices.ContainsFunc(loaded().folded[i], func(name string) bool { return strings.HasPrefix(name, letters) }) {
			name, _, _ := strings.Cut(c.String(), " (")
			names = append(names, name)
		}
	}
	return names
}

// Name returns a county as people write it, "Story, Iowa"; its code where no name means it
// alone.
func Name(code string) string {
	g := loaded()
	i, known := g.byCode[code]
	if !known {
		return code
	}
	name, _, _ := strings.Cut(g.counties[i].String(), " (")
	if found, fault := Find("", name); fault != nil || found != code {
		return code
	}
	return name
}
