package explain

import (
	"math"
	"testing"
)

// story with a scene whose features are all x.
func storyAt(id int, y float64, x ...float64) Story {
	s := Story{ID: id, Place: at(0, y), Result: Failed}
	copy(s.scene[:], x)
	return s
}

func all(*Story) bool { return true }

// With one feature that varies the medoid is the median (Kaufman and Rousseeuw 1990);
// ties go to the lowest number.
func TestTypicalIsTheMedian(t *testing.T) {
	of := []Story{storyAt(0, 1, 9), storyAt(1, 1, 2), storyAt(2, 1, 100), storyAt(3, 1, 4), storyAt(4, 1, 3)}
	if got := TypicalOf(of, all); got.ID != 3 {
		t.Errorf("typical is %d, want the median, 3", got.ID)
	}
	if got := TypicalOf(of[:2], all); got.ID != 0 {
		t.Errorf("of two alike: %d, want the first", got.ID)
	}
	if TypicalOf(of, func(*Story) bool { return false }) != nil {
		t.Error("of none: one")
	}
}

// It is of the side on which there are more, and left and right are mirror images.
func TestTypicalSide(t *testing.T) {
	of := []Story{storyAt(0, 20, 5), storyAt(1, -20, 1), storyAt(2, -20, 9), storyAt(3, -20, 4)}
	if got := TypicalOf(of, all); got.ID != 3 {
		t.Errorf("typical is %d, want 3: the middle one of those on the right", got.ID)
	}
}

// Against an independent computation of the documented distance, over several features.
func TestTypicalAgainstExhaustion(t *testing.T) {
	var of []Story
	for i := range 40 {
		var x [numFeatures]float64
		for k := range x {
			x[k] = float64(mix(100*i+k)%1000) * math.Pow(10, float64(k%3))
		}
		of = append(of, storyAt(i, 1, x[:]...))
	}
	group := func(k int) float64 {
		switch {
		case k < 4:
			return 2 // moment, time
		case k < 12:
			return 8 // path: three thirds, five lanes
		}
		return 5 // men
	}
	n := float64(len(of))
	var sd [numFeatures]float64
	for k := range sd {
		m, v := 0.0, 0.0
		for i := range of {
			m += of[i].scene[k] / n
		}
		for i := range of {
			v += math.Pow(of[i].scene[k]-m, 2) / n
		}
		sd[k] = math.Sqrt(v)
	}
	best, least := -1, math.Inf(1)
	for i := range of {
		sum := 0.0
		for j := range of {
			d := 0.0
			for k := range sd {
				d += math.Pow((of[i].scene[k]-of[j].scene[k])/sd[k], 2) / group(k)
			}
			sum += math.Sqrt(d)
		}
		if sum < least-1e-9 {
			best, least = i, sum
		}
	}
	if got := TypicalOf(of, all); got.ID != best {
		t.Errorf("typical is %d, want %d", got.ID, best)
	}
}

func TestSubsample(t *testing.T) {
	var of []sighting
	for i := range 50 {
		of = append(of, sighting{id: i})
	}
	kept, where := subsample(of, 10)
	if len(kept) != 10 {
		t.Fatal(len(kept))
	}
	for i := range kept {
		if of[where[i]].id != kept[i].id || i > 0 && kept[i].id <= kept[i-1].id {
			t.Errorf("kept %v at %v", kept[i].id, where[i])
		}
	}
}

func TestBest(t *testing.T) {
	of := []Story{{ID: 0, Result: Failed, XG: 1}, {ID: 1, Result: Worked, EntryAt: 90}, {ID: 2, Result: Worked, EntryAt: 40}, {ID: 3, Result: Worked, EntryAt: 40}}
	if got := BestOf(of); got.ID != 2 {
		t.Errorf("without a shot: %d, want the soonest entry", got.ID)
	}
	of = append(of, Story{ID: 4, Result: Worked, XG: 0.1, EntryAt: 200})
	if got := BestOf(of); got.ID != 4 {
		t.Errorf("with a shot: %d", got.ID)
	}
}
