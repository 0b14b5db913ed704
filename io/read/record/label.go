package record

import (
	"regexp"
	"strings"
	"sync"
)

// Labels of facts: what stands before a colon.
const (
	operatorName  = "operator"
	contracts     = "contracts"
	recon         = "recon"
	transferred   = "transferred"
	eligibility   = "eligibility"
	otherFarms    = "other farms"
	tractNumber   = "tract"
	description   = "description"
	physical      = "physical"
	physicalANSI  = "physical ansi"
	unitRange     = "unit range"
	highlyErodes  = "hel"
	wetland       = "wetland"
	violations    = "violations"
	owners        = "owners"
	otherProducer = "other producers"
	fruitHistory  = "fruit history"
)

// labels are the spellings of labels, folded.
var labels = map[string]string{
	"operator name": operatorName, "crp contract number(s)": contracts, "crp contract numbers": contracts, "crp contract number": contracts,
	"recon id": recon, "recon number": recon, "transferred from": transferred,
	"arcplc g/i/f eligibility": eligibility, "arc/plc g/i/f eligibility": eligibility, "arc plc g/i/f eligibility": eligibility, "g/i/f eligibility": eligibility,
	"farms associated with operator": otherFarms, "tract number": tractNumber, "description": description,
	"fsa physical location": physical, "ansi physical location": physicalANSI,
	"bia unit range number": unitRange, "bia range unit number": unitRange, "hel status": highlyErodes,
	"wetland status": wetland, "wl violations": violations, "owners": owners, "owner": owners, "other producers": otherProducer,
	"fav/wr history": fruitHistory,
}

// isLabel tells a line that begins with a known label.
func isLabel(text string) bool {
	before, _, _ := strings.Cut(text, ":")
	return labels[fold(before)] != ""
}

// aLabel is a known label with its colon, at the left edge or behind two blanks.
var aLabel = sync.OnceValue(func() *regexp.Regexp {
	var all []string
	for spelling := range labels {
		all = append(all, strings.ReplaceAll(regexp.QuoteMeta(spelling), " ", `\s+`))
	}
	return regexp.MustCompile(`(?i)(?:^ *|  +)(` + strings.Join(all, "|") + `)\s*:`)
})

// unknownLabel is what else looks like a label with its colon.
var unknownLabel = patternOf(`^ *(\pL[\pL0-9 ./()-]{1,38}\pL)\)?\s*:(?:\s+(.*))?$`)

// Titles of blocks.
const (
	inFacts    = "facts"
	inLand     = "land"
	inElection = "elections"
	inCrops    = "crops"
	inNotes    = "notes"
	inRights   = "statement"
)

var titles = map[string]string{
	"farm land data": inLand, "tract land data": inLand, "crop election choice": inElection, "arc/plc": inElection, "arc / plc": inElection,
	"dcp crop data": inCrops, "notes": inNotes,
}

// titleOf returns the block that a line is the title of, "" where it is none.
func titleOf(text string) string { return titles[strings.TrimSuffix(fold(text), ":")] }

// headingWords are all words that stand in the headings of tables.
var headingWords = func() map[string]bool {
	words := map[string]bool{}
	for _, word := range strings.Fields(`farmland farm land cropland dcp wbp ewp wrp wrp/ewp ewp/wrp grp acep sugarcane status number of tracts state
		conservation other effective double cropped crp mpl mpl/fwp fwp ag.rel. ag. rel rel. ag.rel ag related activity sod
		crop name base acres acreage ctap tran yield plc ccc-505 ccc505 reduction hip fav/wr history direct cc ptpp
		arc individual county price loss coverage arc-ic arc-co plc-default default arc/plc`) {
		words[word] = true
	}
	return words
}()

// headingOnly tells a line that holds nothing but words of headings.
func headingOnly(r *row) bool {
	for _, w := range r.words() {
		if !headingWords[strings.ToLower(w.text)] {
			return false
		}
	}
	return true
}

// headingSection returns the block whose headings a line has, "" where it has none that
// stand in one block alone.
func headingSection(r *row) string {
	if !headingOnly(r) {
		return ""
	}
	switch text := " " + fold(r.text) + " "; {
	case strings.Contains(text, " farmland "), strings.Contains(text, " farm land "), strings.Contains(text, " wbp "):
		return inLand
	case strings.Contains(text, " acreage "), strings.Contains(text, " ctap "), strings.Contains(text, " crop name "), strings.Contains(text, " base acres "), strings.Contains(text, "ccc-505"):
		return inCrops
	}
	return ""
}

// continued is the line that goes on with a tract on a new page.
var continued = regexp.MustCompile(`(?i)^ *Tract\s+([0-9]{1,7})\s+Continued\b`)

// rights begins the civil rights statement, which ends with its page.
var rights = regexp.MustCompile(`(?i)civil rights`)
