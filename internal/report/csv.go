package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"
)

// csvHead names the columns. A row is one figure of the JSON object, named by
// its path there; cells that do not apply are empty.
var csvHead = []string{"figure", "name", "count", "of", "value", "low", "high", "se", "text"}

// csvRow is one figure.
type csvRow struct {
	figure, name, count, of, value, low, high, se, text string
}

func (s *Summary) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	if err := out.Write(csvHead); err != nil {
		return err
	}
	var failed error
	flatten("", reflect.ValueOf(*s), func(r csvRow) {
		err := out.Write([]string{r.figure, guard(r.name), r.count, r.of, r.value, r.low, r.high, r.se, guard(r.text)})
		if failed == nil {
			failed = err
		}
	})
	out.Flush()
	if failed == nil {
		failed = out.Error()
	}
	return failed
}

// flatten walks the summary as JSON would, by its field tags, so that no figure
// can be left out and the names in both formats agree.
func flatten(path string, v reflect.Value, emit func(csvRow)) {
	count := func(n int64) string { return strconv.FormatInt(n, 10) }
	switch x := v.Interface().(type) {
	case Rate:
		emit(csvRow{figure: path, count: count(x.Count), of: count(x.Of), value: x.Rate.text(), low: x.Low.text(), high: x.High.text()})
		return
	case Share:
		emit(csvRow{figure: path, count: count(x.Count), of: count(x.Of), value: x.Rate.text()})
		return
	case Mean:
		emit(csvRow{figure: path, of: count(x.N), value: x.Mean.text(), low: x.Low.text(), high: x.High.text(), se: x.SE.text()})
		return
	case PlayerRate:
		name := strings.TrimSpace(x.Position + " " + x.Name)
		r := x.Rate
		emit(csvRow{figure: join(path, strconv.Itoa(x.Number)), name: name, count: count(r.Count), of: count(r.Of),
			value: r.Rate.text(), low: r.Low.text(), high: r.High.text()})
		return
	case PlayerShare:
		name := strings.TrimSpace(x.Position + " " + x.Name)
		emit(csvRow{figure: join(path, strconv.Itoa(x.Number)), name: name,
			count: count(x.Share.Count), of: count(x.Share.Of), value: x.Share.Rate.text()})
		return
	case Number:
		emit(csvRow{figure: path, value: x.text()})
		return
	case interface{ fields(func(string, any)) }:
		x.fields(func(key string, value any) { flatten(join(path, key), reflect.ValueOf(value), emit) })
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			name := f.Tag.Get("json") // empty for an embedded struct, whose fields JSON lifts
			flatten(join(path, name), v.Field(i), emit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			at := path
			if v.Index(i).Kind() == reflect.String {
				at = join(path, strconv.Itoa(i+1))
			}
			flatten(at, v.Index(i), emit)
		}
	case reflect.String:
		emit(csvRow{figure: path, text: v.String()})
	case reflect.Bool:
		emit(csvRow{figure: path, text: strconv.FormatBool(v.Bool())})
	case reflect.Int, reflect.Int64:
		emit(csvRow{figure: path, value: strconv.FormatInt(v.Int(), 10)})
	case reflect.Uint64:
		emit(csvRow{figure: path, value: strconv.FormatUint(v.Uint(), 10)})
	default:
		panic(fmt.Sprintf("report: no CSV for %s", v.Type()))
	}
}

func (o Object[T]) fields(visit func(key string, value any)) {
	for _, f := range o {
		visit(f.Key, f.Value)
	}
}

func join(path, key string) string {
	if path == "" || key == "" {
		return path + key
	}
	return path + "." + key
}
