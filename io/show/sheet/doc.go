// Package sheet lays a comparison out for paper and phone: a sheet for the operation where
// it has several farms, then one for each farm, the answer first. Page prints it. Start
// reading at Of.
package sheet
