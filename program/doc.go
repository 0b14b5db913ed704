// Package program is the law of PLC and ARC-CO as arithmetic: one file per
// rule, one function per paragraph, every parameter an argument.
//
// It knows no file, no price of a market and no chance. Numbers of the law come
// from TermsFor (rules.go), which reads package program/law; formulas take them
// as arguments. Start reading at PLC.Rate and ARCCO.Rate. Values are checked
// where they enter (package program/farm), so a formula here cannot fail.
package program
