// Package builtin has the agencies' county tables that come with the program: FSA's
// ARC-CO county tables, RMA's and NASS's county yields, county and State names, works of
// the US government in the public domain.
//
// And what agencies printed of past crop years beside them: base acres, enrolment, WASDE's
// prices.
//
// It knows the layout of its two files (docs/formats.md), which a test makes anew from
// the agencies' files. It must not know what is asked of a county. Start with Sources, for
// past crop years with Past.
package builtin
