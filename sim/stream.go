package sim

import (
	"encoding/binary"
	"math/rand/v2"

	//lint:ignore SA1019 pinned in go.mod, and used for its PCG generator in this file only
	xrand "golang.org/x/exp/rand"
)

// Purpose names what a stream's draws decide. Each purpose of a possession has
// draws of its own, so two plans under one seed share their luck in every purpose
// even when one of them draws more often in another.
type Purpose uint64

// The order is part of the seed: append, never insert.
const (
	Setup      Purpose = iota // what the scenario leaves to chance at the start
	Choice                    // which action the carrier picks
	Execution                 // errors of passes, carries and shots
	Duel                      // tackles, aerial balls, first touches
	Block                     // who presses, and when
	Movement                  // runs off the ball
	Perception                // what a player sees and misjudges
	Doubt                     // which parameters possessions are played with
)

// Stream is a sequence of random draws keyed by (seed, possession, purpose) and by
// nothing else: not by the worker, nor by the possessions played before. Reset it
// before the first draw. It holds a pointer into itself: do not copy it.
type Stream struct {
	pcg xrand.PCGSource
	*rand.Rand
	key [16]byte
}

// NewStream returns a stream for one worker, to be reset for every possession.
func NewStream() *Stream {
	s := &Stream{}
	s.Rand = rand.New(&s.pcg)
	return s
}

// Reset puts the stream at the start of its sequence for a key. For one seed and
// purpose the key is a bijection of the possession, so no two possessions share a
// sequence. The source's own Seed would repeat one word in both halves of the state,
// and the first draws of neighbouring seeds are then too even (TestFirstDrawsAreUniform).
func (s *Stream) Reset(seed, possession uint64, p Purpose) {
	hi := mix64(mix64(mix64(seed+golden)+possession) + uint64(p))
	binary.BigEndian.PutUint64(s.key[:8], hi)
	binary.BigEndian.PutUint64(s.key[8:], mix64(hi+golden))
	if err := s.pcg.UnmarshalBinary(s.key[:]); err != nil {
		panic(err) // only a key shorter than 16 bytes is refused
	}
}

// golden is 2⁶⁴ over the golden ratio, the increment of SplitMix64.
const golden = 0x9e3779b97f4a7c15

// mix64 is the output function of SplitMix64, a bijection of 64 bits.
// Reference: Steele, Lea and Flood (2014), Fast splittable pseudorandom number
// generators, with the constants of Vigna's splitmix64.
func mix64(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
