// Package reference holds what open data and the literature say about build-up
// play, each figure with its source and the spread it shows, and measures the
// same figures in the engine's possessions under the same definitions.
//
// A figure is named after its table: possession_outcomes/build_up/final_third,
// final_third_entries/share_of_entries/left_wing, nearest_defender/release/own.
// Measure plays the settings of the League and returns the engine's value of every
// figure; Compare puts them beside the data.
//
// # How a figure is measured
//
// record reads the engine's events as event data would record them: a completed
// pass ends where the next event happens, a failed one where it was cut out, a
// high ball that a team-mate reaches counts as completed even if he loses it. Build-up
// possessions are those of the tables: they begin in the own third with a ground pass
// or a carry and have two completed passes that start and end in the own half.
// Rates of goals are mean chances of the shots, which promise as many goals with less
// noise. The price of a loss comes from the one possession that the opponent
// plays after it. A pass is forward within 60 degrees of straight ahead (see sector).
//
// What tracking sees comes from every reception and from samples of the block:
// spells on the ball end with the release or the loss.
//
// Where the data and the engine cannot mean quite the same: event data call a
// possession lost by its last own event, so that a misplaced pass followed by a lost
// tackle is a duel (ground duels 0.180 that way, 0.155 by cause; passes 0.287 and 0.303),
// the engine by cause; a shot ends the engine's possession, in matches one in ten
// goes on after it; the engine's goal kicks and keeper's throws count as passes.
//
// Left out of what the movement data hold: passing speed, the roll of the ball and
// accelerations, which are physics of the engine; how presses begin and end, which
// is labelled by the provider's own rules.
package reference
