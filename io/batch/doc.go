// Package batch answers a table of many operations: it groups the rows, asks
// sim/answer for each operation in the same scenarios, and writes the results as part
// files that can be resumed, joined and shared out over machines. It decides nothing
// about farms and knows no law. Memory does not grow with the number of farms. Start
// reading at Run.
package batch
