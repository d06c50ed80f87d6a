// Package parts keeps what an experiment has finished in a directory, so that it
// can go on after an interruption and be shared out among machines. It knows no
// football: what it keeps are blocks of equally long records, each block a range
// of possessions of one cell, the cell named by a hash of all that decides it.
//
// A directory belongs to one experiment. Its manifest.json holds the command, the
// text of every file it read, the seed, the version of the program, the revision
// of the engine and the architecture: all that the answer depends on. The other
// files are parts. A part holds blocks and carries the stamp of its experiment
// and a checksum over everything in it:
//
//	playout part 1\n
//	{"stamp": ..., "shard": ..., "blocks": [{"cell", "first", "possessions"}, ...]}\n
//	the records of the blocks, in their order
//	SHA-256 of all bytes before
//
// A file appears whole or not at all: it is written under a temporary name,
// synchronised and renamed. Its name is taken from its checksum, so that two
// processes never write two contents under one name. A killed process leaves at
// the worst a temporary file, which nobody reads and a later run takes away.
//
// Blocks that are there twice with the same records, as after two processes did
// the same work, count once. Records that contradict each other are a fault, and
// so is whatever does not belong: nothing is guessed or left out.
package parts
