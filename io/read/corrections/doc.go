// Package corrections reads the list of corrections: which releases gave a wrong figure, which
// figure that was and what to do (docs/corrections.md).
//
// It knows the layout of the list and how releases are ordered. It must not know which release
// asks, nor fetch anything. Start reading at Parse.
package corrections
