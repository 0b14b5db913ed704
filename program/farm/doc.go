// Package farm holds what people have: an operation with its farms, base acres
// and producers, the counties with their yields, and the market with its
// prices; and what makes each of them valid.
//
// It knows no file format and computes no payment. Start reading at Operation.
package farm
