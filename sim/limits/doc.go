// Package limits pays the producers of an operation: shares, attribution to persons,
// payment limits and sequestration, scenario by scenario. With package elect it finds
// the elections with the highest mean after limits, and it says what another election
// would change.
//
// It knows payments (package payoff) and who shares in them; it knows no price, no yield
// and no sentences for people. All money is USD of one crop year. Start reading at
// Payments.
package limits
