// Package parallel does independent work on all cores. Each piece writes to its own
// place, so that no result depends on the order.
package parallel
