// Package site holds the pages by which a farm is typed, answered and printed without a
// terminal, as functions of a request to a response.
//
// It knows the way through the pages, the fields of their forms and how they become an
// operation file. It keeps nothing between two requests: what was typed travels in the
// form. It must not know a network, a disk or a clock, so that the same pages are served
// by a program on 127.0.0.1 and by one file in a browser.
//
// Start reading at Site.Answer.
package site
