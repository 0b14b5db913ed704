// Package table reads the county table that the Farm Service Agency publishes
// for Agriculture Risk Coverage, county option: one .xlsx workbook per program
// year with the yields, prices, guarantee and payment rate of every county,
// crop and practice.
//
// It knows the workbook's layouts (program years 2014-2018, 2019, 2020 and
// later) and their slips. It must not know a farm, a payment or the law: it
// hands on what is published. Start reading at Read. The forms of Row, Note and
// the refusals stay stable; the layouts follow the agency.
package table
