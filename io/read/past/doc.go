// Package past reads what agencies printed of past crop years: FSA's ARC-CO
// county tables and base acres, WASDE's projected prices, NASS's county yields.
//
// It knows the layout of those tables (docs/formats.md), not what is asked of
// them. Start reading at Read.
package past
