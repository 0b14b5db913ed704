// Package exceptions makes a list to work through of the flags of many farms: what is wrong
// and what to do, in the words of the flags, the gravest and largest first. It raises no
// flag itself. Start reading at Of, then List.
package exceptions
