package explain

import (
	"cmp"
	"math"
	"slices"

	"playout/model"
	"playout/sim"
)

// The space in which scenes are compared. A scene is the deciding moment of a
// possession and how it came to it, in four groups of features:
//
//	moment  where the ball was along and across the pitch, m
//	time    seconds to the moment, spells on the ball before it
//	path    share of the time to it that the ball spent in each third and each lane
//	men     distances of the three nearest defenders and two nearest team-mates of the
//	        man nearest to the ball, m
//
// The pitch is folded along its length, so that left and right are mirror images: y is
// taken on the side of the deciding moment. Every feature is divided by its standard
// deviation over the scenes compared, and a group counts by the mean square of its
// features, so that the four weigh the same. A feature that is the same in all scenes
// counts for nothing.
const (
	momentFeatures = 2
	timeFeatures   = 2
	pathFeatures   = int(model.NumThirds) + int(model.NumLanes)
	menFeatures    = 5
	numFeatures    = momentFeatures + timeFeatures + pathFeatures + menFeatures
)

var featureGroups = [...]int{momentFeatures, timeFeatures, pathFeatures, menFeatures}

type scene [numFeatures]float64

// sceneOf takes down the scene at a tick.
func sceneOf(r *reading, tick int, pitch model.Pitch) scene {
	var s scene
	at := r.place(tick)
	fold := 1.0
	if at.Y < 0 {
		fold = -1
	}
	s[0], s[1] = at.X, fold*at.Y
	s[2] = float64(tick) * sim.TickSeconds
	for i := range r.spells {
		if r.spells[i].From <= tick {
			s[3]++
		}
	}
	path := s[momentFeatures+timeFeatures:]
	for t := 0; t <= tick; t++ {
		b := r.frame(t).Ball
		path[pitch.ThirdOf(b.X)] += 1 / float64(tick+1)
		path[int(model.NumThirds)+int(model.LaneOf(fold*b.Y))] += 1 / float64(tick+1)
	}
	f := r.frame(tick)
	var mates, opponents [10]float64
	for i := range mates {
		mates[i], opponents[i] = distance(f.Players[0][i+1], at), distance(f.Players[1][i+1], at)
	}
	slices.Sort(mates[:])
	slices.Sort(opponents[:])
	men := path[pathFeatures:]
	copy(men, opponents[:3])
	copy(men[3:], mates[1:3]) // the nearest is the man himself
	return s
}

// mostScenes is how many scenes are compared with each other; of more, a subsample
// that depends on nothing but their possessions' numbers.
const mostScenes = 2000

// TypicalOf is the most typical of the stories that keep holds for: the medoid, the
// one whose distances to all others add up to the least, of the side of the pitch on
// which more of them are decided. Ties go to the lowest number. nil when none holds.
// Reference: Kaufman and Rousseeuw (1990), Finding Groups in Data, chapter 2.
func TypicalOf(stories []Story, keep func(*Story) bool) *Story {
	var of []*Story
	for i := range stories {
		if keep(&stories[i]) {
			of = append(of, &stories[i])
		}
	}
	of = subsample(of, mostScenes)
	if len(of) == 0 {
		return nil
	}
	left := 0
	for _, s := range of {
		if s.Place.Y >= 0 {
			left++
		}
	}
	onSide := func(s *Story) bool { return s.Place.Y >= 0 == (2*left >= len(of)) }
	scenes := standardised(of)
	var best *Story
	least := math.Inf(1)
	for i, s := range of {
		if !onSide(s) {
			continue
		}
		sum := 0.0
		for j := range of {
			sum += apart(&scenes[i], &scenes[j])
		}
		if sum < least { // of is in order of number
			best, least = s, sum
		}
	}
	return best
}

// subsample keeps at most n, by a hash of their numbers, in order of number.
func subsample(of []*Story, n int) []*Story {
	if len(of) <= n {
		return of
	}
	out := slices.Clone(of)
	slices.SortFunc(out, func(a, b *Story) int { return cmp.Or(cmp.Compare(mix(a.ID), mix(b.ID)), cmp.Compare(a.ID, b.ID)) })
	out = out[:n]
	slices.SortFunc(out, func(a, b *Story) int { return cmp.Compare(a.ID, b.ID) })
	return out
}

// mix is the finaliser of SplitMix64 (Steele, Lea and Flood 2014): a number that looks
// drawn.
func mix(id int) uint64 {
	z := uint64(id) + 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// standardised scenes: each feature in standard deviations, divided by the root of its
// group's size.
func standardised(of []*Story) []scene {
	out := make([]scene, len(of))
	k := 0
	for _, size := range featureGroups {
		for range size {
			sum, squares := 0.0, 0.0
			for _, s := range of {
				sum += s.scene[k]
			}
			mean := sum / float64(len(of))
			for _, s := range of {
				squares += (s.scene[k] - mean) * (s.scene[k] - mean)
			}
			sd := math.Sqrt(squares / float64(len(of)))
			if sd > 1e-9 {
				for i, s := range of {
					out[i][k] = (s.scene[k] - mean) / sd / math.Sqrt(float64(size))
				}
			}
			k++
		}
	}
	return out
}

func apart(a, b *scene) float64 {
	sum := 0.0
	for k := range a {
		sum += (a[k] - b[k]) * (a[k] - b[k])
	}
	return math.Sqrt(sum)
}

// BestOf is the build-up that worked best: the one whose shot was worth most; without
// any shot, the one that came soonest into the final third under control. Ties go to
// the lowest number. nil when none worked.
func BestOf(stories []Story) *Story {
	var best *Story
	for i := range stories {
		s := &stories[i]
		if s.Result != Worked {
			continue
		}
		if best == nil || s.XG > best.XG || s.XG == best.XG && s.EntryAt >= 0 && (best.EntryAt < 0 || s.EntryAt < best.EntryAt) {
			best = s
		}
	}
	return best
}
