package program

import "fencerow/program/crop"

// ECOBand returns the band of the Enhanced Coverage Option: from the area loss trigger that
// was chosen down to where SCO begins, whatever the level of the underlying policy.
//
// Source: 21-ECO, sec. 1 and 6; quoted by others. Example: testdata/published/dakota-2026-eco.json.
func ECOBand(trigger, lower crop.Share) Band { return bandOf(trigger, lower) }
