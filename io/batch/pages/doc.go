// Package pages answers the operations of one client and lays them out for paper, as
// `compare --page` does with one: a sheet of each operation, then its farms. It decides
// nothing about farms. Start reading at Answer, then Of.
package pages
