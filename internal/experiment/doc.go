// Package experiment plays variants of a scenario against each other with the same
// luck, and says by how much they differ.
//
// A Cell is one variant. Play plays the same possessions of every cell: possession
// i has the same luck in all of them, so that what two cells differ by is seen
// possession by possession and most of the chance cancels (common random numbers;
// Law 2015, Simulation Modeling and Analysis, 5th ed., section 11.2). Of every
// possession an Outcome of 32 bytes is kept; a Figure reads a number off it; Mean
// and Difference estimate the figure's mean in a cell and its difference between
// two.
//
// The possessions of a cell are cut into blocks at multiples of BlockSize. Blocks
// of all cells go through one queue, so that no processor waits for the end of a
// cell, and they are what Parts keeps and what several machines share out. Results
// depend neither on the number of workers nor on who played which block.
package experiment
