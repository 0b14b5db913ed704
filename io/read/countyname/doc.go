// Package countyname finds a county's code from what a person writes: five digits,
// digits that lost their zero, or the county's name with its State, in any
// spelling of the agencies' tables.
//
// counties.csv holds the codes and spellings; it is made from the tables of FSA,
// NASS and RMA by this package's tests (-update). The room must not know: what a
// county grows, or who asks. Start reading at Find.
package countyname
