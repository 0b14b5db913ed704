// Package office sums up the joined files of a batch for the people of an office: which
// sheets a summary has, in the order in which they are worked through, and what stands on
// them; and the summary by county, which names nobody. It computes no payment. Start reading
// at Sums.
package office
