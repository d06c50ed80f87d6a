package stats

import (
	"reflect"
	"testing"
)

func TestAddIntegers(t *testing.T) {
	type inner struct{ A, B int64 }
	type sums struct {
		N     int64
		Row   [3]int64
		Table [2][2]int64
		Parts [2]inner
	}
	a := sums{1, [3]int64{1, 2, 3}, [2][2]int64{{1, 2}, {3, 4}}, [2]inner{{1, 2}, {3, 4}}}
	b := sums{10, [3]int64{10, 20, 30}, [2][2]int64{{10, 20}, {30, 40}}, [2]inner{{10, 20}, {30, 40}}}
	AddIntegers(&a, &b)
	want := sums{11, [3]int64{11, 22, 33}, [2][2]int64{{11, 22}, {33, 44}}, [2]inner{{11, 22}, {33, 44}}}
	if !reflect.DeepEqual(a, want) {
		t.Errorf("%+v, want %+v", a, want)
	}
	defer func() {
		if recover() == nil {
			t.Error("a float is added without complaint")
		}
	}()
	AddIntegers(&struct{ X float64 }{}, &struct{ X float64 }{})
}
