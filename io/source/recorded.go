package source

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/read/operation"
	"fencerow/io/read/record"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Recorded makes a first operation file of the text of farm records (io/read/record). It
// asks what the text does not say, then has every figure confirmed or changed. It is
// taken in turn as Asking is. Experimental: no real print was at hand.
type Recorded struct {
	name     string
	text     []byte
	find     record.CountyFinder
	records  []*record.Record
	left     []record.Note           // prints for which a newer one stands
	counties map[string]string       // codes by county as printed
	before   map[*record.Record]bool // whether a record is older than the notice of new base; none where not known
	open     []openQuestion          // what the text does not say, still to be asked
	made     *farm.Operation         // nil while anything is open
	asked    []record.Note           // what is left open all the same
	lines    []figureLine
	changing int // the line that is being changed, from 1; 0: none
	done     bool
	replies  []string
}

// openQuestion is something that the text does not say.
type openQuestion struct {
	AskedQuestion
	take func(text string) (understood string, fault *farm.Fault)
}

// NewRecorded reads the text of farm records; name stands in messages. find finds
// counties as printed; nil: in the agencies' tables. The error is farm.Mistakes.
func NewRecorded(name string, text []byte, find record.CountyFinder) (*Recorded, error) {
	if find == nil {
		find = record.FindCounty
	}
	r := &Recorded{name: name, text: text, find: find}
	return r, r.begin()
}

// begin reads the text anew and lists what it leaves open.
func (r *Recorded) begin() (err error) {
	if r.records, err = record.Parse(r.name, r.text); err != nil {
		return err
	}
	r.records, r.left = record.Newest(r.records)
	r.before = map[*record.Record]bool{}
	r.counties, r.open, r.made, r.lines, r.changing, r.done, r.replies = map[string]string{}, nil, nil, nil, 0, false, nil
	for i := range r.records {
		r.openOf(r.records[i])
	}
	r.make()
	return nil
}

// make makes the operation, once nothing is open.
func (r *Recorded) make() {
	if len(r.open) > 0 || r.made != nil {
		return
	}
	o, asked := record.Operation(r.records, r.county)
	for i := range o.Farms {
		o.Farms[i].Shares.Every = &farm.Shares{operator: 1}
		if before, known := r.before[r.records[i]]; known {
			o.Farms[i].BeforeNotice = &before
		}
	}
	o.Producers = firstOperation().Producers
	r.made, r.asked = &o, append(slices.Clone(r.left), asked...)
	r.lines = figureLinesOf(r.made, r.records)
}

// county finds a county by what was answered, else as printed.
func (r *Recorded) county(state, county string) (string, *farm.Fault) {
	if code := r.counties[countyPrinted(state, county)]; code != "" {
		return code, nil
	}
	return r.find(state, county)
}

func countyPrinted(state, county string) string {
	return strings.Trim(county+", "+state, ", ")
}

// confirmKey is the Key of the question whether all lines are right.
const confirmKey = "lines"

// Confirms reports whether a question asks whether the lines are right, so that they are
// shown before it.
func (q AskedQuestion) Confirms() bool { return q.Key == confirmKey }

// Question returns the next question; ok is false where all is asked.
func (r *Recorded) Question() (q AskedQuestion, ok bool) {
	switch {
	case len(r.open) > 0:
		return r.open[0].AskedQuestion, true
	case r.done:
		return q, false
	case r.changing > 0:
		line := r.lines[r.changing-1]
		return AskedQuestion{Key: line.key, Words: line.What, Help: line.help, Offered: line.Value, MaySkip: true}, true
	}
	return AskedQuestion{Key: confirmKey, Words: "Is all of it right? Enter, or the number of a line to change", MaySkip: true,
		Help: "Check each line against the print. A number asks for that line again; Enter writes the file."}, true
}

// Answer takes the answer to the question, as Asking does.
func (r *Recorded) Answer(text string) (understood string, fault *farm.Fault) {
	text = strings.TrimSpace(text)
	q, _ := r.Question()
	switch {
	case text == "" && q.Offered == "" && !q.MaySkip:
		return "", &farm.Fault{Reason: "an answer is needed", Hint: q.Help}
	case len(r.open) > 0:
		if understood, fault = r.open[0].take(text); fault == nil {
			r.open = r.open[1:]
			r.make()
		}
	case r.changing > 0:
		understood, fault = r.change(text)
	default:
		fault = r.confirm(text)
	}
	if fault == nil {
		r.replies = append(r.replies, text)
	}
	return understood, fault
}

// change puts a new value into the line that was named.
func (r *Recorded) change(text string) (understood string, fault *farm.Fault) {
	line := &r.lines[r.changing-1]
	if text != "" {
		if fault = line.set(text); fault != nil {
			return "", fault
		}
		line.Value, line.Place = line.get(), "as typed"
		understood = line.What + ": " + line.Value
	}
	r.changing = 0
	return understood, nil
}

// confirm takes all lines, or the number of one to change. What the reader of operation
// files refuses is not taken.
func (r *Recorded) confirm(text string) *farm.Fault {
	if text == "" {
		_, err := operation.Parse("the lines above", r.Operation())
		if mistakes, wrong := err.(farm.Mistakes); wrong {
			return &farm.Fault{Reason: mistakes[0].Reason, Hint: "change that line: " + mistakes[0].Hint}
		}
		r.done = true
		return nil
	}
	n, fault := number("the line", text)
	if fault != nil || n != float64(int(n)) || n < 1 || int(n) > len(r.lines) {
		return &farm.Fault{Reason: fmt.Sprintf("%q is no line", text), Hint: fmt.Sprintf("write a number from 1 to %d, or press Enter if all is right", len(r.lines))}
	}
	r.changing = int(n)
	return nil
}

// Back takes the last answer back, as Asking does.
func (r *Recorded) Back() (typed string, ok bool) {
	if len(r.replies) == 0 {
		return "", false
	}
	kept, last := r.replies[:len(r.replies)-1], r.replies[len(r.replies)-1]
	if r.begin() != nil {
		return "", false // was read before
	}
	for _, text := range kept {
		r.Answer(text) // was taken before
	}
	return last, true
}

// Operation returns the operation file; nil while something is asked that it needs.
func (r *Recorded) Operation() []byte {
	if r.made == nil {
		return nil
	}
	return operationText(*r.made)
}

// commodityOf asks nothing: it reads a crop in any spelling, "" to leave it out.
func commodityOf(text string) (crop.Commodity, *farm.Fault) {
	if text == "" {
		return "", nil
	}
	return commodityMeant(text)
}

// Warnings are what does not add up on the prints, with its place.
func (r *Recorded) Warnings() (lines []string) {
	for _, one := range r.records {
		lines = append(lines, texts(one.Warnings)...)
	}
	return lines
}

// NotKnown lists what stays open after the answers.
func (r *Recorded) NotKnown() []string {
	lines := texts(r.asked)
	for _, f := range r.made.Farms {
		if f.BeforeNotice == nil {
			lines = append(lines, noticeNotKnown(f.Number))
		}
	}
	return lines
}

func texts(notes []record.Note) (lines []string) {
	for _, n := range notes {
		lines = append(lines, n.String())
	}
	return lines
}

// Unread lists the lines that are not understood. Where people may be named, only their
// place is told.
func (r *Recorded) Unread() (lines []string) {
	for _, one := range r.records {
		for _, u := range one.Unread {
			text := "among names of people, not shown"
			if len(u.Private) == 0 {
				text = strings.Join(strings.Fields(u.Text), " ")
			}
			if u.Last.Line > u.First.Line {
				text = fmt.Sprintf("and on to line %d, %s", u.Last.Line, text)
			}
			lines = append(lines, fmt.Sprintf("%s: %s", u.First, text))
		}
	}
	return lines
}
