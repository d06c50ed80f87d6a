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

// sighting is a scene with what orders and sides it.
type sighting struct {
	id    int
	left  bool
	scene *scene
}

// medoid is the index of the most typical sighting: the one whose distances to all
// others add up to the least, of the side of the pitch on which there are more. Ties go
// to the first. -1 when there is none. of is in order of number.
// Reference: Kaufman and Rousseeuw (1990), Finding Groups in Data, chapter 2.
func medoid(of []sighting) int {
	of, at := subsample(of, mostScenes)
	left := 0
	for _, s := range of {
		left += yes(s.left)
	}
	scenes := standardised(of)
	best, least := nobody, math.Inf(1)
	for i := range of {
		if of[i].left != (2*left >= len(of)) {
			continue
		}
		sum := 0.0
		for j := range of {
			sum += apart(&scenes[i], &scenes[j])
		}
		if sum < least {
			best, least = at[i], sum
		}
	}
	return best
}

// TypicalOf is the most typical of the stories that keep holds for; nil when it holds
// for none.
func TypicalOf(stories []Story, keep func(*Story) bool) *Story {
	var of []sighting
	var from []*Story
	for i := range stories {
		if s := &stories[i]; keep(s) {
			of, from = append(of, sighting{s.ID, s.Place.Y >= 0, &s.scene}), append(from, s)
		}
	}
	if i := medoid(of); i >= 0 {
		return from[i]
	}
	return nil
}

// TypicalRace is the most typical of the races that keep holds for; nil when it holds
// for none.
func TypicalRace(races [][]Race, keep func(*Race) bool) *Race {
	var of []sighting
	var from []*Race
	for i := range races {
		for j := range races[i] {
			if r := &races[i][j]; keep(r) {
				of, from = append(of, sighting{r.Possession, r.At.Y >= 0, &r.scene}), append(from, r)
			}
		}
	}
	if i := medoid(of); i >= 0 {
		return from[i]
	}
	return nil
}

// subsample keeps at most n, by a hash of their numbers, in their order; at are their
// indices.
func subsample(of []sighting, n int) (kept []sighting, at []int) {
	at = make([]int, len(of))
	for i := range at {
		at[i] = i
	}
	if len(of) <= n {
		return of, at
	}
	slices.SortStableFunc(at, func(i, j int) int { return cmp.Compare(mix(of[i].id), mix(of[j].id)) })
	at = at[:n]
	slices.Sort(at)
	for _, i := range at {
		kept = append(kept, of[i])
	}
	return kept, at
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
func standardised(of []sighting) []scene {
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
