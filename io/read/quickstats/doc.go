// Package quickstats asks the interface of NASS Quick Stats for county yields,
// with the user's own key and only when the user says so.
//
// It must not know: what is done with the answer; it is a CSV that io/read/yields
// reads. Start with Fetch.
package quickstats
