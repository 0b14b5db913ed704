package record

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// noColumn marks a cell of which it is not known under which heading it stood.
const noColumn = -1

// electionHead is the heading of one list of elections.
type electionHead struct {
	cell
	program farm.Program
}

// electionPattern finds the headings of both layouts, whole or in the pieces of a
// wrapped one.
var electionPattern = patternOf(`(?i)(arc[ -]*)?\b(individual|ic|county|co)\b|price *loss(?: *coverage)?|plc[ -]*default|\bplc\b`)

// electionHeads returns the headings in the cells of a row.
func electionHeads(all []cell) (found []electionHead) {
	for _, c := range all {
		for _, at := range electionPattern().FindAllStringIndex(c.text, -1) {
			text := c.text[at[0]:at[1]]
			h := electionHead{cell{text, c.col + at[0], c.place}, farm.PLC}
			switch folded := strings.ToLower(text); {
			case strings.HasSuffix(folded, "individual"), strings.HasSuffix(folded, "ic"):
				h.program = farm.ARCIC
			case strings.HasSuffix(folded, "county"), strings.HasSuffix(folded, "co"):
				h.program = farm.ARCCO
			}
			found = append(found, h)
		}
	}
	return found
}

// election reads a row of the block of elections.
func (r *reader) election(one *row) {
	if headingOnly(one) {
		found := electionHeads(one.cells)
		r.squeezed = r.squeezed || len(found) > len(one.cells)
		r.heads = append(r.heads, found...)
		return
	}
	if hasAcres(one) { // no list has any: a heading of the crop table is missing
		r.unread(one)
		r.ask(one.place, fmt.Sprintf("the row %q stands below the elections and is not understood: is it base acres?", strings.Join(strings.Fields(one.text), " ")))
		return
	}
	all := one.cells
	if r.squeezed {
		all = r.unsqueezed(one)
	}
	for _, c := range all {
		if c.col == noColumn || len(r.heads) == 0 {
			r.unread(one)
			r.ask(c.place, fmt.Sprintf("it is not clear which election %q is under: give the last election of each crop", c.text))
			return
		}
	}
	for _, c := range all {
		r.list(c, r.heads[nearest(c, cellsIn(r.heads))])
	}
}

func cellsIn(heads []electionHead) (all []cell) {
	for _, h := range heads {
		all = append(all, h.cell)
	}
	return all
}

// nearest returns which of the heads begins nearest to the left edge of a cell.
func nearest(c cell, heads []cell) int {
	found, least := 0, -1
	for i, h := range heads {
		if d := max(c.col-h.col, h.col-c.col); least < 0 || d < least {
			found, least = i, d
		}
	}
	return found
}

// unsqueezed parts a row of lists between which one blank stands: a comma goes on, and
// so do two words that only together are a crop. Where that does not make one list for
// each heading, none is taken.
func (r *reader) unsqueezed(one *row) (lists []cell) {
	for _, w := range one.words() {
		n := len(lists)
		if n > 0 && (strings.HasSuffix(lists[n-1].text, ",") || strings.HasPrefix(w.text, ",") || together(lists[n-1].text, w.text)) {
			lists[n-1].text += " " + w.text
			continue
		}
		lists = append(lists, w)
	}
	if r.open != nil && len(lists) == 1 {
		lists[0].col = r.open.col // the list of the line before goes on
		return lists
	}
	for i := range lists {
		if len(lists) != len(r.heads) {
			lists[i].col = noColumn
		} else {
			lists[i].col = r.heads[i].col
		}
	}
	return lists
}

func together(before, word string) bool {
	last := before[strings.LastIndexByte(before, ',')+1:]
	_, both := crop.ParseCommodity(last + " " + word)
	_, alone := crop.ParseCommodity(word)
	return both && !alone
}

// list reads the codes of one list.
func (r *reader) list(c cell, head electionHead) {
	r.open = nil
	if strings.HasSuffix(c.text, ",") {
		r.open = &head
	}
	for _, code := range strings.Split(c.text, ",") {
		code = strings.Join(strings.Fields(code), " ")
		if code == "" || strings.EqualFold(code, "none") {
			continue
		}
		r.record.Elections = append(r.record.Elections, Election{Program: head.program, Code: code, Place: c.place})
	}
}

// codes are codes of elections that no other table of the agencies has.
// Source: docs/formats.md, the farm record's text.
var codes = map[string]crop.Commodity{"sorgh": crop.GrainSorghum, "sunfl": crop.SunflowerSeed, "canol": crop.Canola}

// codeLetters is how many letters of a code begin the name of a crop, where no table
// knows the code: a judgement.
const codeLetters = 4

// resolve finds the commodity of every code of the lists: by a full name of the farm's
// own table, by the spellings that agencies use, or by the one crop of the table whose
// name begins with the code's first letters.
func (r *Record) resolve() {
	for i := range r.Elections {
		e := &r.Elections[i]
		if e.Commodity = r.commodityOf(e.Code); e.Commodity == "" {
			r.Asked = append(r.Asked, Note{e.Place, fmt.Sprintf("the election code %q is not known: say which crop it stands for", e.Code)})
		}
	}
}

func (r *Record) commodityOf(code string) crop.Commodity {
	letters := onlyLetters(code)
	for _, c := range r.Crops {
		if c.Commodity != "" && onlyLetters(c.Name) == letters {
			return c.Commodity
		}
	}
	if c, ok := crop.ParseCommodity(code); ok {
		return c
	}
	if c, ok := codes[letters]; ok {
		return c
	}
	var found crop.Commodity
	for _, c := range r.Crops {
		if c.Commodity == "" || len(letters) < codeLetters || !strings.HasPrefix(onlyLetters(c.Name), letters[:codeLetters]) {
			continue
		}
		if found != "" && found != c.Commodity {
			return ""
		}
		found = c.Commodity
	}
	return found
}

// onlyLetters folds a name: small letters alone.
func onlyLetters(text string) string {
	return strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' {
			return c
		}
		return -1
	}, strings.ToLower(text))
}
