// Package yields reads county yields from the agencies' text files: NASS Quick
// Stats as the web page, the bulk file and the interface give it, and RMA's
// county yields report. It streams: a file of millions of lines needs little
// memory. What a line says that is no county yield of a covered commodity is
// passed over; what should be one and cannot be read is noted by line.
//
// It must not know: what is done with a yield. Start with Read.
package yields
