// Package calls makes a list of the people who sign, across operations and farms: a line
// for each, with the dollars that rest on the signature, the offices and farms, who must
// agree, and what is not recorded. It words a person of one operation as io/show/worklist
// does, computes no payment and fills nothing in. Start reading at Of, then List.
package calls
