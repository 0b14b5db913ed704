// Package choices sums up the whole payment of one farm under every choice of PLC
// or ARC-CO over its commodities: mean, 5th and 95th percentile, all exact.
//
// It is the fast form for very many farms: nothing is sorted whole and a farm
// allocates nothing. It knows rates and weights, not the law and not where either
// comes from. The readable form is in plain_test.go. Start reading at Work.All.
package choices
