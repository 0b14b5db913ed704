// Package explain answers the questions that need no odds, with every figure
// traceable: the arithmetic of one payment step by step, the law's parameters, the
// workings of a comparison, market and county at a glance, past years again, new
// base; and the sheets of a meeting, which a comparison stands behind.
//
// The steps are those that package program declares. It draws nothing of its own.
// Start reading at Explain.
package explain
