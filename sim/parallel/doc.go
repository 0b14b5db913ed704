// Package parallel does independent work on all cores, and remembers what many ask for (Memo).
// Each piece of work writes to its own place, so that no result depends on the order.
package parallel
