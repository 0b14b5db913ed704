package source

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Asking asks what a first operation file needs, one question after the other, in the
// order of the FSA farm record, then what the record does not print. The terminal and a
// site ask the same. Start it with NewAsking, then take Question and Answer in turn until
// Question says that all is asked; then Operation has the file.
type Asking struct {
	twoPractices func(county string, c crop.Commodity) bool
	replies      []reply
	farms        []askedFarm // what the replies say, made anew after each
}

// reply is an answer that was taken.
type reply struct {
	key  questionKey
	text string // as typed; "": skipped, or the answer offered
}

// askedFarm and askedBase are what is known so far.
type askedFarm struct {
	number, county, countyWords string
	share                       crop.Share
	bases                       []askedBase
	beforeNotice                *bool
	noticed                     int // of bases: asked about the notice
}

type askedBase struct {
	commodity crop.Commodity
	acres     crop.Acres
	yield     *crop.Yield
	irrigated *crop.Share
	election  farm.Program // "": not known
	notice    *farm.NoticeBase
}

// AskedQuestion is one question in words.
type AskedQuestion struct {
	Key     string // the key of an operation file that it fills in
	Words   string // the question itself, without a question mark where a thing is named
	Help    string // where the figure stands and what it means
	Offered string // taken where nothing is typed; "": nothing is offered
	MaySkip bool   // nothing need be typed
}

// NewAsking begins to ask. twoPractices says whether the county tables have the yields of
// a commodity irrigated and nonirrigated apart; nil: nowhere.
func NewAsking(twoPractices func(county string, c crop.Commodity) bool) *Asking {
	if twoPractices == nil {
		twoPractices = func(string, crop.Commodity) bool { return false }
	}
	return &Asking{twoPractices: twoPractices}
}

// Question returns the next question; ok is false where all is asked.
func (a *Asking) Question() (q AskedQuestion, ok bool) {
	key := a.next()
	if key == nothingMore {
		return q, false
	}
	return a.words(key), true
}

// next returns what is asked next: it follows from the last answer.
func (a *Asking) next() questionKey {
	if len(a.replies) == 0 {
		return askFarm
	}
	switch last := a.replies[len(a.replies)-1]; last.key {
	case askFarm:
		if last.text == "" && len(a.replies) > 1 {
			return nothingMore
		}
		return askCounty
	case askCounty:
		return askCommodity
	case askCommodity:
		if last.text == "" {
			return askShare
		}
		return askBaseAcres
	case askBaseAcres:
		return askPaymentYield
	case askPaymentYield:
		if f := a.farm(); a.twoPractices(f.county, a.base().commodity) {
			return askIrrigatedShare
		}
		return askElection
	case askIrrigatedShare:
		return askElection
	case askElection:
		return askCommodity
	case askShare:
		return askBeforeNotice
	case askNoticeAcres:
		if a.noticed().notice != nil {
			return askNoticeYield
		}
	}
	return a.afterNotice()
}

// afterNotice returns what is asked after the notice, or after a base on it.
func (a *Asking) afterNotice() questionKey {
	f := a.farm()
	if f.beforeNotice != nil && *f.beforeNotice && f.noticed < len(f.bases) {
		return askNoticeAcres
	}
	return askFarm
}

// noticed is the base that is asked about on the notice: the next one, or the one whose
// acres were given.
func (a *Asking) noticed() *askedBase {
	f := a.farm()
	if last := a.replies[len(a.replies)-1]; last.key == askNoticeAcres && last.text != "" {
		return &f.bases[f.noticed-1]
	}
	return &f.bases[min(f.noticed, len(f.bases)-1)]
}

// farm is the one that is asked about.
func (a *Asking) farm() *askedFarm { return &a.farms[len(a.farms)-1] }

// base is the one that is asked about.
func (a *Asking) base() *askedBase {
	f := a.farm()
	return &f.bases[len(f.bases)-1]
}

// Answer takes the answer to the question and returns what was understood, where that is
// more than what was typed. Nothing typed takes what is offered, or skips. A fault says
// what to do, and the same question stands.
func (a *Asking) Answer(text string) (understood string, fault *farm.Fault) {
	key := a.next()
	q := a.words(key)
	text = strings.TrimSpace(text)
	if text == "" && q.Offered == "" && !q.MaySkip {
		return "", &farm.Fault{Reason: "an answer is needed", Hint: q.Help}
	}
	before := clone(a.farms)
	understood, fault = a.take(key, text)
	if fault != nil {
		a.farms = before
		return "", &farm.Fault{Reason: strings.TrimPrefix(fault.Reason, unitSuspect), Hint: fault.Hint}
	}
	a.replies = append(a.replies, reply{key, text})
	return understood, nil
}

// unitSuspect is the flag that begins the reason of a figure in another unit; a person who
// answers needs the reason alone.
const unitSuspect = "unit_suspect: "

// clone copies what is known so far, so that it can be put back.
func clone(farms []askedFarm) []askedFarm {
	copied := slices.Clone(farms)
	for i := range copied {
		copied[i].bases = slices.Clone(copied[i].bases)
	}
	return copied
}

// Back takes the last answer back, so that its question is asked again. ok is false where
// there is none.
func (a *Asking) Back() (typed string, ok bool) {
	if len(a.replies) == 0 {
		return "", false
	}
	last := a.replies[len(a.replies)-1]
	kept := a.replies[:len(a.replies)-1]
	a.replies, a.farms = nil, nil
	for _, r := range kept {
		a.Answer(r.text) // was taken before
	}
	return last.text, true
}

// NotKnown lists in words what was skipped and what stays unknown for it.
func (a *Asking) NotKnown() (lines []string) {
	for _, f := range a.farms {
		if f.beforeNotice == nil {
			lines = append(lines, noticeNotKnown(f.number))
		}
		for _, b := range f.bases {
			what := fmt.Sprintf("farm %s, %s", f.number, b.commodity.Name())
			if b.yield == nil {
				lines = append(lines, what+": no PLC yield, so PLC is unknown. The farm record prints it.")
			}
			if b.irrigated == nil && a.twoPractices(f.county, b.commodity) {
				lines = append(lines, what+": no irrigated percentage, so ARC-CO is shown for none irrigated and for all.")
			}
			if b.election == "" {
				lines = append(lines, what+": no last election, so nothing is compared with it.")
			}
		}
	}
	return lines
}

// noticeNotKnown says that it is not known whether a farm's record is older than the notice.
func noticeNotKnown(number string) string {
	return fmt.Sprintf("farm %s: whether the record is older than the 2026 base notice. Base acres may have grown.", number)
}
