// Package crop holds the words of the farm programs: the covered commodities,
// their units, crop years and marketing years, and the status a figure can have.
//
// It knows no number of the law, no price and no farm. Start reading at
// Commodity. The commodity keys and status words are part of the file format
// and stay stable.
package crop
