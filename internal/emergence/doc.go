// Package emergence tests that laws of the trade come out of the engine. None is
// written into it: the engine knows players, ball and geometry, and each test plays
// scenarios, as a user would write them, that differ in one thing.
//
// Variants share their luck possession by possession (one seed), and a difference is
// the paired one. A claim passes when the interval of the difference lies on the
// expected side of zero. It is asked after each quarter of the possessions, and the play ends
// once all claims of a comparison hold: what is plain is shown soon, and there are possessions
// enough for what is not. A claim without any truth in it would pass by luck with
// probability 1e-4 at most, all looks together, so that one or more of the about 30 claims do
// so has probability 3e-3 at most. Seeds are fixed, so a test does not
// fluctuate from run to run.
//
// A claim that does not come out of the engine carries the reason as a known miss;
// the test fails when it begins to.
//
// All twelve laws are common practice of the trade, without a source unless one is
// named.
package emergence
