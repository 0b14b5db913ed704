// Package rank finds order statistics of long series without sorting them: values are
// counted by interval, and only those in the intervals that are asked about are sorted.
//
// It knows numbers alone. Start reading at Counted.At.
package rank
