// Package reference holds what open data and the literature say about build-up
// play, each figure with its source and the spread it shows, and measures the
// same figures in the engine's possessions under the same definitions.
//
// A figure is named after its table: possession_outcomes/build_up/final_third,
// final_third_entries/share_of_entries/left_wing, nearest_defender/release/own.
package reference
