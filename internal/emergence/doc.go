// Package emergence tests that laws of the trade come out of the engine. None is
// written into it: the engine knows players, ball and geometry, and each test plays
// scenarios, as a user would write them, that differ in one thing.
//
// Variants share their luck possession by possession (one seed), and a difference is
// the paired one. A claim passes when the interval of the difference lies on the
// expected side of zero. A claim without any truth in it would pass by luck with
// probability 1e-4; that one of the 40 or fewer claims does so, with probability 4e-3
// at most. The numbers of possessions are chosen so that the effects measured are
// about twice what the interval asks or more: with such an effect another seed
// misses a claim with probability 1e-4 too. Seeds are fixed, so a test never
// fluctuates.
//
// All twelve laws are common practice of the trade, without a source unless one is
// named.
package emergence
