// Package report turns an answer into what people read: headings, sentences,
// tables and notes, without deciding anything and without knowing where it will
// be shown. Every renderer prints a Report and only it. Start reading at
// OfComparison.
package report
