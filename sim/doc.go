// Package sim is the possession engine: it plays a scenario's possessions, each
// from its start to its end, and adds up what happened.
//
// # The stages of a tick
//
//	perceive    pressure on the carrier, where the lines are
//	decide      the carrier weighs every option and takes one
//	moveAttack  support, runs, pinning, the box
//	moveBlock   shift with the ball, mark, press or stay compact, cover
//	step        legs and ball move by one tick of 0.1 s
//	challenge   duels for the ball at the carrier's feet
//	landed      a ball on its way arrives: who has it was drawn from the
//	            control model when it left
//	track       how far the possession has got, switches, overloads, the block
//
// After a loss the teams change roles and the same stages play what the opponent
// makes of the ball, from where everybody is; after a whistle or a ball over the
// line the restart is taken from its place. The book of the possession is closed
// before that.
//
// A possession is played by one world, which holds all state that changes and
// allocates nothing. The engine is symmetric: both teams have a structure, a
// block, a plan and runs, and every behaviour is written in the frame of the
// team it belongs to.
//
// # Determinism
//
// Every random number of possession i comes from streams keyed by (seed, i,
// purpose, spell on the ball), or from a lot that is keyed by these and by what it
// belongs to: an option, a run. One scenario, seed and Revision give the same
// bytes for any number of workers, in any order, on one architecture; on other
// architectures results are equal in distribution only, since a compiler may
// fuse a multiplication with an addition. Two variants of a scenario share
// their luck spell by spell, and anew from the first spell after a loss. Under
// Config.Uncertainty the parameters are drawn for every DrawEvery possessions from
// a stream keyed by (seed, group); the possessions keep their own luck.
//
// # What the model leaves out
//
// Fatigue, weather and pitch, corners, free kicks and long throws near goal,
// rebounds after a shot, deception and body feints, talk between players, cards and the score.
// Placement of a shot beyond its xG, swerve of the ball, spin but for what it does to
// the bounce.
package sim
