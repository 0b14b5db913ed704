// Package kept is what a run of io/batch keeps in its folder of the figures that its
// answers rest on beside the table of farms: national prices, county figures and the rows
// of the law. Market files and county books are written over by newer ones, so without it
// a run could not be compared with a later one. It knows no farm and no answer. Start
// reading at Write.
package kept
