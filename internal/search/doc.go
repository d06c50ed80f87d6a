// Package search looks for a better structure within the freedom a coach allows.
//
// A Freedom says what may change and how far: numbers of the scenario, places of
// players, words. Run tries variants with package evolution, each generation under
// luck of its own that all its variants and the original share, and then plays what
// it settled on against the original on possessions that the search has never seen.
// Only these say whether it is better: the leads of a search are those of the
// luckiest of many and shrink when they are played again.
package search
