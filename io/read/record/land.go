package record

import "strings"

// landNames are the columns of a land block by how many figures its row has, and
// whether it is the first or second row. Source: docs/formats.md, the farm record's text.
var landNames = map[int]map[int][]string{
	0: {
		8: {"farmland", "cropland", "dcp_cropland", "wbp", "ewp", "wrp", "grp", "sugarcane"},
		7: {"farmland", "cropland", "dcp_cropland", "wbp", "wrp_ewp", "crp", "grp"}, // older
	},
	1: {
		8: {"state_conservation", "other_conservation", "effective_dcp_cropland", "double_cropped", "crp", "mpl", "dcp_agricultural_activity", "sod"},
		5: {"state_conservation", "other_conservation", "effective_dcp_cropland", "double_cropped", "mpl"}, // older
	},
}

// newerWithoutEWP is the first row of a newer print that has no column EWP.
var newerWithoutEWP = []string{"farmland", "cropland", "dcp_cropland", "wbp", "wrp", "grp", "sugarcane"}

// land reads a row of a land block: headings are left, a row of acres is the first or
// second of the block.
func (r *reader) land(one *row) {
	if headingOnly(one) {
		r.header += " " + fold(one.text)
		return
	}
	words := one.words()
	n := 0
	for n < len(words) && isAcres(words[n]) {
		n++
	}
	names := landNames[r.landRows][n]
	if n == len(newerWithoutEWP) && r.landRows == 0 && strings.Contains(r.header, "sugarcane") {
		names = newerWithoutEWP
	}
	rest := words[n:]
	if names == nil || len(rest) > 0 && (r.landRows > 0 || !isCount(rest[len(rest)-1])) {
		if n > 0 {
			r.landRows++
			r.warn(one.place, "this row of acres has another number of figures than the layout: none of it is used")
		}
		r.unread(one)
		return
	}
	to := &r.record.Land
	if r.tract != nil {
		to = &r.tract.Land
	}
	for i, name := range names {
		f := LandFigure{Name: name}
		f.read(words[i])
		*to = append(*to, f)
	}
	if len(rest) > 0 {
		r.record.Tracts.read(rest[len(rest)-1])
	}
	r.landRows++
}
