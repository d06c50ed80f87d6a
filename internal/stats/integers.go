package stats

import "reflect"

// AddIntegers adds every integer of what src points to, to the same
// field of dst, which is of the same type. Structs and arrays may nest; every
// field is exported and in the end an int64, so that parts of a count merge
// exactly and in any order, and no field can be forgotten. It panics on any
// other type.
func AddIntegers(dst, src any) {
	addIntegers(reflect.ValueOf(dst).Elem(), reflect.ValueOf(src).Elem())
}

func addIntegers(dst, src reflect.Value) {
	switch dst.Kind() {
	case reflect.Int64:
		dst.SetInt(dst.Int() + src.Int())
	case reflect.Struct:
		for i := 0; i < dst.NumField(); i++ {
			addIntegers(dst.Field(i), src.Field(i))
		}
	case reflect.Array:
		n := dst.Len()
		if dst.Type().Elem() == int64Type {
			to, from := dst.Slice(0, n).Interface().([]int64), src.Slice(0, n).Interface().([]int64)
			for i, x := range from {
				to[i] += x
			}
			return
		}
		for i := 0; i < n; i++ {
			addIntegers(dst.Index(i), src.Index(i))
		}
	default:
		panic("stats: only int64 can be added exactly, not " + dst.Type().String())
	}
}

var int64Type = reflect.TypeFor[int64]()
