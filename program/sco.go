package program

import "fencerow/program/crop"

// SCOBand returns the band of the Supplemental Coverage Option: from the area loss trigger
// down to the coverage level of the underlying policy.
//
// Source: 20-SCO, sec. 1 and 2; quoted by others. Example: testdata/published/dakota-2026-sco.json.
func SCOBand(trigger, level crop.Share) Band { return bandOf(trigger, level) }
