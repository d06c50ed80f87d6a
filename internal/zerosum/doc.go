// Package zerosum solves two-person zero-sum games given as a matrix. It knows no
// football: a row is a way to play of the side that wants much, a column one of the
// side that wants little, an entry what the first side gets.
//
//	Solve                  value and optimal mixes of both sides, by linear programme
//	Security, Saddles      what each side is sure of without mixing
//	BestRows, BestColumns  the answers to a way to play, or to a mix
//	DominatedRows          what another way, or a mix of others, does at least as well
//	                       against everything; DominatedColumns for the other side
//	Resample, Spread       games as they might have come out with other luck, and how
//	                       far the answer varies over them
//
// The payoffs of one side are the losses of the other by assumption. A mix is the best
// against an opponent who plays his best; against one who does not, there is better.
//
// References: von Neumann (1928), Zur Theorie der Gesellschaftsspiele, Math. Ann. 100,
// 295-320; Dantzig (1951), A proof of the equivalence of the programming problem and
// the game problem; both from memory.
package zerosum
