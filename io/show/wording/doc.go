// Package wording writes figures, odds, dates and the sentences that several outputs
// share, so that a thing is called the same on screen, page, sheet and workbook. It
// decides nothing. Start reading at Odds.
package wording
