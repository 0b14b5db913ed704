package record

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"fencerow/io/read/countyname"
	"fencerow/program/farm"
)

// whatToDo is the hint for a text that is no farm record.
const whatToDo = "open the print of the farm record (FSA-156EZ), select all of its text, copy it into a text file. Then give that file"

// Parse returns the records in the text of one or several prints, in their order. name
// stands in messages. What it does not understand does not fail: see Record's Unread,
// Warnings and Asked. The error, of type farm.Mistakes, is for a file that is no such text.
func Parse(name string, text []byte) ([]*Record, error) {
	refuse := func(line int, value, reason string) ([]*Record, error) {
		return nil, farm.Mistakes{{File: name, Line: line, Value: value, Reason: reason, Hint: whatToDo}}
	}
	switch {
	case bytes.HasPrefix(bytes.TrimSpace(text), []byte("%PDF")):
		return refuse(1, "", "this is a PDF; only text copied out of it can be read")
	case bytes.HasPrefix(text, []byte("PK\x03\x04")), bytes.IndexByte(text, 0) >= 0 && !bytes.HasPrefix(text, []byte{0xff, 0xfe}) && !bytes.HasPrefix(text, []byte{0xfe, 0xff}):
		return refuse(1, "", "this is no text file")
	}
	lines, fed := linesOf(decoded(text))
	if len(lines) == 0 {
		return refuse(1, "", "the text is empty")
	}
	lines = joinColons(lines)
	heads := headsOf(lines)
	if !anyFarm(heads) {
		first := lines[0]
		for _, h := range heads {
			if h.isHead() {
				return refuse(lines[h.first].place.Line, "", "this page head of a farm record has no farm number (FARM : number)")
			}
		}
		return refuse(first.place.Line, "", "no page head of a farm record is in this text (FSA-156EZ, FARM : number)")
	}
	if !fed {
		countPages(lines, heads)
	}
	var all []*Record
	for _, s := range sheaves(lines, heads) {
		all = append(all, s.read())
	}
	return all, nil
}

func anyFarm(heads []*head) bool {
	for _, h := range heads {
		if h.found["farm"].Text != "" {
			return true
		}
	}
	return false
}

// countPages gives each line its page by the page heads before it.
func countPages(lines []line, heads []*head) {
	page, next := 0, 0
	for i := range lines {
		for next < len(heads) && heads[next].first <= i {
			if heads[next].isHead() {
				page++
			}
			next++
		}
		lines[i].place.Page = max(page, 1)
	}
	for _, h := range heads {
		page := lines[h.last].place.Page
		for name, text := range h.found {
			text.Place.Page = page
			h.found[name] = text
		}
	}
}

// sheaf is the lines of one record, with its first page head.
type sheaf struct {
	head  *head
	lines []line
}

// sheaves parts the lines by record: a page head with another farm number, State,
// county, crop year or time of printing begins a new one, and so does a second operator.
func sheaves(lines []line, heads []*head) (all []*sheaf) {
	var before []line // what stands before the first page head
	at := 0
	for i, h := range heads {
		if len(all) == 0 {
			before = append(before, lines[at:h.first]...)
		} else {
			all[len(all)-1].lines = append(all[len(all)-1].lines, lines[at:h.first]...)
		}
		at = h.last + 1
		if !h.isHead() {
			continue
		}
		end := len(lines)
		if i+1 < len(heads) {
			end = heads[i+1].first
		}
		if len(all) == 0 || all[len(all)-1].ends(h, lines[at:end]) {
			all = append(all, &sheaf{head: h})
		}
	}
	last := all[len(all)-1]
	last.lines = append(last.lines, lines[at:]...)
	all[0].lines = append(before, all[0].lines...)
	return all
}

// ends reports whether a page head begins a record of its own. next are the lines of its
// page.
func (s *sheaf) ends(h *head, next []line) bool {
	for _, name := range []string{"farm", "year", "prepared"} {
		if a, b := fold(s.head.found[name].Text), fold(h.found[name].Text); a != "" && b != "" && a != b {
			return true
		}
	}
	if a, b := s.head.county.Text, h.county.Text; a != "" && b != "" && !strings.EqualFold(a, b) {
		return true
	}
	return hasOperator(s.lines) && hasOperator(next)
}

func hasOperator(lines []line) bool {
	for _, l := range lines {
		if before, _, _ := strings.Cut(strings.TrimSpace(l.text), ":"); labels[fold(before)] == operatorName {
			return true
		}
	}
	return false
}

// read reads the lines of one record.
func (s *sheaf) read() *Record {
	h := s.head
	record := &Record{
		Farm: h.found["farm"], State: h.state, County: h.county, Prepared: h.found["prepared"], Layout: Newer,
	}
	if strings.HasPrefix(strings.ToLower(h.found["form"].Text), "report") {
		record.Layout = Older
	}
	if year := h.found["year"]; year.Text != "" {
		record.CropYear.read(cell{text: year.Text, place: year.Place})
	}
	record.PreparedOn = dayOf(record.Prepared.Text)
	r := reader{record: record, section: inFacts}
	if !isFarmNumber(record.Farm.Text) {
		r.ask(record.Farm.Place, fmt.Sprintf("the farm number is printed as %q, which is not all digits: give it", record.Farm.Text))
	}
	if record.State.Text == "" || record.County.Text == "" {
		r.ask(record.Farm.Place, "State and county of the office are not in the page head: give the county of the farm")
	} else if countyname.State(record.State.Text) == "" {
		r.warn(record.State.Place, fmt.Sprintf("%q is not the name of a State", record.State.Text))
	}
	all, plain := rows(s.lines)
	r.plain = plain
	for _, one := range all {
		r.row(one)
	}
	r.finish()
	return record
}

// mostFarmDigits is how long a farm number is at most. Source: RECORD layout of
// docs/formats.md.
const mostFarmDigits = 7

func isFarmNumber(text string) bool {
	return len(text) <= mostFarmDigits && strings.Trim(text, "0123456789") == "" && text != ""
}

// dayOf reads the day of a stamp such as "2/11/25  9:42 AM CST"; zero where it is none.
func dayOf(stamp string) time.Time {
	day, _, _ := strings.Cut(strings.TrimSpace(stamp), " ")
	for _, layout := range []string{"1/2/06", "1/2/2006"} {
		if t, err := time.Parse(layout, day); err == nil {
			return t
		}
	}
	return time.Time{}
}
