package source

import (
	"fmt"

	"fencerow/program/crop"
)

// questionKey names a question by the key that it fills in.
type questionKey string

const (
	nothingMore       questionKey = ""
	askFarm           questionKey = "farm"
	askCounty         questionKey = "county"
	askCommodity      questionKey = "commodity"
	askBaseAcres      questionKey = "base_acres"
	askPaymentYield   questionKey = "payment_yield"
	askIrrigatedShare questionKey = "irrigated_share"
	askElection       questionKey = "election_on_record"
	askShare          questionKey = "share"
	askBeforeNotice   questionKey = "record_before_notice"
	askNoticeAcres    questionKey = "notice_base_acres"
	askNoticeYield    questionKey = "notice_payment_yield"
)

// firstNumber stands for the number of a farm that was not given.
const firstNumber = "1"

// words puts a question into words, for the farm and base that are asked about.
func (a *Asking) words(key questionKey) AskedQuestion {
	q := AskedQuestion{Key: string(key)}
	switch key {
	case askFarm:
		q.Words, q.Offered = "FSA farm number", firstNumber
		q.Help = "It is at the top of the farm record, after FARM. Any number is enough for a first look."
		if len(a.farms) > 0 {
			q.Words, q.Offered, q.MaySkip = "Another farm? Its number, or Enter for no more", "", true
			q.Help = "Each FSA farm number has a farm record of its own."
		}
	case askCounty:
		q.Words = "County and State"
		q.Help = "Where the land lies, as on the farm record: a name with its State, or the county's five digits. A farm in two counties needs an operation file (docs/formats.md)."
		if len(a.farms) > 1 {
			q.Offered = a.farms[len(a.farms)-2].countyWords
		}
	case askCommodity:
		q.Words = "Crop with base acres"
		q.Help = "As the farm record lists it: corn, soybeans, wheat, long grain rice, seed cotton. The first letters are enough if only one crop has them."
		if len(a.farm().bases) > 0 {
			q.Words, q.MaySkip = "Another crop? Its name, or Enter for no more", true
		}
	case askBaseAcres:
		q.Words = fmt.Sprintf("Base acres of %s", a.base().commodity.Name())
		q.Help = "The column Base Acres of the farm record, not the acres planted."
	case askPaymentYield:
		q.Words, q.MaySkip = fmt.Sprintf("PLC yield of %s, %s (Enter: not known)", a.base().commodity.Name(), a.base().commodity.Unit().Yield()), true
		q.Help = "The column PLC Yield of the farm record. Without it PLC cannot be worked out."
	case askIrrigatedShare:
		q.Words, q.MaySkip = fmt.Sprintf("Irrigated percentage of %s, HIP (Enter: not known)", a.base().commodity.Name()), true
		q.Help = "The column HIP of the farm record: history, not this year's pivots. This county has yields for both practices, and ARC-CO uses them."
	case askElection:
		q.Words, q.MaySkip = fmt.Sprintf("Last election for %s: p for PLC, a for ARC-CO, i for ARC-IC (Enter: not known)", a.base().commodity.Name()), true
		q.Help = "The farm record lists it under Crop Election Choice. ARC-IC covers all crops of a farm or none."
	case askBeforeNotice:
		q.Words, q.MaySkip = "Was this record printed before the 2026 base notice came? y or n (Enter: not known)", true
		q.Help = noticeHelp
	case askNoticeAcres:
		q.Words, q.MaySkip = fmt.Sprintf("Base acres of %s on the notice (Enter: not known)", a.noticed().commodity.Name()), true
		q.Help = "As the notice prints it, old and new base together. Without it the answer uses the record's base, and says so."
	case askNoticeYield:
		q.Words, q.MaySkip = fmt.Sprintf("PLC yield of %s on the notice (Enter: that of the record)", a.noticed().commodity.Name()), true
		q.Help = "As the notice prints it."
	case askShare:
		q.Words, q.Offered = "Your share of the crop on this farm, percent", wholeShare
		if len(a.farms) > 1 {
			q.Offered = percentOf(a.farms[len(a.farms)-2].share)
		}
		q.Help = "100 if you own or cash rent it; your part if you share the crop. The rest belongs to people outside the file."
	}
	return q
}

// noticeHelp says what the notice of new base is.
const noticeHelp = "In summer 2026 county offices sent owners a notice of the base that their land gains. A record printed before it shows the old acres."

// wholeShare is all of a crop.
const wholeShare = "100%"

// percentOf writes a share as it can be typed.
func percentOf(share crop.Share) string { return plainNumber(share*100) + "%" }
