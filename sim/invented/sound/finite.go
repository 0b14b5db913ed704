package sound

import (
	"fmt"
	"math"
	"reflect"
)

// Finite returns an error that names the first number of a value, however deep inside and
// whether exported or not, that is infinite or no number; nil: all are finite.
func Finite(v any) error {
	w := walk{seen: map[uintptr]bool{}}
	w.into(reflect.ValueOf(v), fmt.Sprintf("%T", v))
	return w.found
}

// walk goes through a value until it finds a number that is not finite.
type walk struct {
	seen  map[uintptr]bool // pointers and maps, which may lead back to themselves
	found error
}

func (w *walk) into(v reflect.Value, path string) {
	if w.found != nil {
		return
	}
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			w.found = fmt.Errorf("%s is %v", path, x)
		}
	case reflect.Interface:
		w.into(v.Elem(), path)
	case reflect.Pointer:
		if v.IsNil() || w.seen[v.Pointer()] {
			return
		}
		w.seen[v.Pointer()] = true
		w.into(v.Elem(), path)
	case reflect.Struct:
		for i := range v.NumField() {
			w.into(v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			w.into(v.Index(i), fmt.Sprintf("%s[%d]", path, i))
		}
	case reflect.Map:
		for entries := v.MapRange(); entries.Next(); {
			w.into(entries.Key(), path+" (a key)")
			w.into(entries.Value(), fmt.Sprintf("%s[%v]", path, entries.Key()))
		}
	}
}
