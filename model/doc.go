// Package model is the vocabulary of the simulator: the pitch and its zones,
// players, structures, blocks, plans, runs and the scenario that ties them
// together. It holds pure types and rules; it reads no files and draws no
// random numbers.
//
// # Frame and units
//
// Metres, seconds, m/s and radians. The origin is the centre spot; +x is the
// direction in which the team that starts with the ball attacks, +y is that
// team's left. A place in a team's own frame has +x towards the goal that this
// team attacks; for the other team both coordinates change sign, so "left" is
// always the left of the team that attacks.
//
// # Words
//
//	third      own, middle, final: cut at a sixth of the length either side of halfway
//	lane       five strips along the pitch, cut by the long edges of the penalty
//	           area and of the goal area; people say channel
//	line       a row of a structure or block, counted from its own goal
//	gap        the space between two neighbours of one line
//	block      the defending shape without the ball
//	structure  the shape with the ball, one for each phase
package model
