package record

import (
	"fmt"
	"slices"
	"strings"
)

// reader is one reading of a record, row by row.
type reader struct {
	record   *Record
	tract    *Tract // being read; nil: the farm's own blocks
	section  string
	plain    bool
	landRows int    // of the block being read
	header   string // words of the land block's headings
	heads    []electionHead
	squeezed bool          // headings of elections stand one blank apart
	open     *electionHead // of the list that ended in a comma, so goes on; nil: none
	columns  columns
	pending  cell   // the first part of a crop's name on two lines
	fact     string // label of the last fact
	valueCol int    // where its value stands
	across   []cell // labels that stand in a row above their values
}

// row reads one *row: what it is follows from titles, labels and headings first, then
// from the block it stands in.
func (r *reader) row(one *row) {
	text := strings.TrimSpace(one.text)
	title := titleOf(text)
	switch at := continued.FindStringSubmatch(text); {
	case at != nil:
		r.continueTract(at[1], one)
	case r.section == inRights && !startsTract(text): // ends with its page, whose head is out already
	case title != "" && !(r.section == inNotes && title == inNotes):
		r.begin(title)
	case r.section == inNotes && !startsTract(text) && !rights.MatchString(text):
		r.record.Notes = append(r.record.Notes, Text{text, one.place})
	case r.facts(one):
	case rights.MatchString(text) && !hasAcres(one):
		r.section = inRights
	case r.section == inFacts && r.continues(one):
	default:
		r.blockRow(one)
	}
}

// blockRow reads a row of a block, or one whose headings begin a block.
func (r *reader) blockRow(one *row) {
	begins := headingSection(one)
	if begins != "" && begins != r.section && (r.section != inElection || begins == inCrops) {
		r.begin(begins)
	}
	switch {
	case r.section == inElection:
		r.election(one)
	case r.section == inLand:
		r.land(one)
	case r.section == inCrops:
		r.crops(one)
	case headingOnly(one):
	case r.section == inFacts && r.valuesAcross(one):
	default:
		r.unread(one)
	}
}

// begin starts a block.
func (r *reader) begin(section string) {
	r.dropPending()
	r.section, r.landRows, r.header, r.columns = section, 0, "", columns{}
	if section == inElection {
		r.heads, r.squeezed, r.open = nil, false, nil
	}
	if section == inCrops && r.tract != nil {
		r.tract.HasCrops = true
	}
}

// continueTract goes back to a tract after a page head.
func (r *reader) continueTract(number string, one *row) {
	for i := range r.record.Parts {
		if r.record.Parts[i].Number.Text == number {
			r.tract = r.record.Parts[i]
			r.section, r.fact = inFacts, ""
			return
		}
	}
	r.newTract(Text{number, one.place})
	r.section = inFacts
	r.warn(one.place, fmt.Sprintf("tract %s goes on here, and its beginning is not in the text", number))
}

// newTract begins a tract.
func (r *reader) newTract(number Text) {
	r.dropPending()
	r.record.Parts = append(r.record.Parts, &Tract{Number: number})
	r.tract = r.record.Parts[len(r.record.Parts)-1]
}

func hasAcres(one *row) bool { return slices.ContainsFunc(one.words(), isAcres) }

func (r *reader) warn(at Place, message string) {
	r.record.Warnings = append(r.record.Warnings, Note{at, message})
}

func (r *reader) ask(at Place, message string) {
	r.record.Asked = append(r.record.Asked, Note{at, message})
}

// unread keeps a row that is not understood, with the lines before it that are not.
// Among facts, people may be named in it.
func (r *reader) unread(one *row) {
	text, private := strings.TrimSpace(one.text), r.section == inFacts
	all := r.record.Unread
	if n := len(all); n > 0 && all[n-1].Section == r.section && all[n-1].Last.Page == one.place.Page && one.place.Line-all[n-1].Last.Line <= 1 {
		last := &all[n-1]
		last.Last = one.place
		if private {
			last.Private = append(last.Private, text)
		} else {
			last.Text += "\n" + text
		}
		return
	}
	u := Unread{First: one.place, Last: one.place, Section: r.section, Text: text}
	if private {
		u.Text, u.Private = "", Private{text}
	}
	r.record.Unread = append(all, u)
}
