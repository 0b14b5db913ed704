// Package builtin has the agencies' county tables that come with the program: FSA's
// ARC-CO county tables, RMA's and NASS's county yields, county and State names, works of
// the US government in the public domain.
//
// It knows the layout of its one file (docs/formats.md), which a test makes anew from
// the agencies' files. It must not know what is asked of a county. Start with Sources.
package builtin
