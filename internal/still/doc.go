// Package still reads the file of a still: where twenty-two players stand at one moment
// and who has the ball, typed from a picture.
//
//	ball: 8                        # shirt number; or {player: 8, facing: left}
//	attack:  {1: [-45, 0], 2: [-10, 28], ...}
//	defence: {1: [44, 0], ...}
//
// Places are metres from the centre spot in one frame for both teams: the side on the
// ball (attack) attacks +x, and +y is its left. Whoever moves is written
//
//	7: {at: [19, -27], running: goal}             # or own_goal, left, right, ball, [x, y]
//	9: {at: [-5, -14], running: ball, speed: 7}   # m/s; left out: 6
//	3: {at: [4, 30], velocity: [1.5, 0]}          # m/s along x and y
//
// goal, own_goal, left and right are as the man's own team sees them. A man of the
// attack who is running counts as on a run that he can be played to.
//
// Further keys: title; pitch: {length: 105, width: 68}; foot of a man: left, right or
// both (left out: both); and
//
//	scenario: plan.yaml            # relative to this file
//
// from which players, plans and the pitch are then taken: the shirt numbers are those of
// its players. Without it everybody is average for where he stands, and the keeper is
// number 1 or, where nobody wears it, the man nearest to his goal line.
//
// It is as strict as the reader of scenarios: every mistake has its place and a mend.
package still
