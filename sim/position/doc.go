// Package position resolves a question against its sources: for each commodity
// base its terms of law, prices, benchmark and county yields, payment acres and
// shares, each figure with its status and where it came from.
//
// It knows the order of the sources of a figure (a known one, a stated outlook, an
// agency's estimate, a trend, what is assumed). It draws nothing, pays nothing and
// decides nothing. Start reading at Sources.CommodityBases.
package position
