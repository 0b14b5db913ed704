// Package elect finds elections: for each commodity of each farm the program, so that the
// mean payment after limits is highest, and an upper bound on that mean.
//
// It knows payments by scenario, the attribution of payments to people, and the share that
// sequestration withholds; it knows no farm, no commodity and no rule of a program, and
// draws nothing. It answers two questions:
//
//   - Many farms under payment limits. Start reading at Operation.Best. The problem is a
//     binary program with a concave objective. A few elections are enumerated. For more,
//     supergradient ascent on the relaxation (each election may be mixed from 0 to 1)
//     gives cutting planes and an upper bound, local search from several starts gives the
//     choice, and the planes prune what is left to enumerate (Bertsekas, Nonlinear
//     Programming, chapter 6, for the method; docs/method.md derives this bound).
//   - One farm without limits, for very many farms. Start reading at
//     Workspace.EveryChoice: mean and exact percentiles of every choice. farm_test.go has
//     the same in its simplest form.
package elect
