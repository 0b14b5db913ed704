package deepcopy

import (
	"fmt"
	"reflect"
)

// Option is what the replaced package takes; there is none here.
type Option func()

// Copy makes *dst a copy of src that shares no memory with it. src is of the type of
// *dst, or a pointer to it. Fields that are not exported are left at zero.
func Copy(dst, src any, _ ...Option) error {
	to, from := reflect.ValueOf(dst), reflect.ValueOf(src)
	if to.Kind() != reflect.Pointer || to.IsNil() {
		return fmt.Errorf("deepcopy: %T is no place to copy to", dst)
	}
	if from.Kind() == reflect.Pointer && from.Type() == to.Type() {
		from = from.Elem()
	}
	if !from.IsValid() || from.Type() != to.Elem().Type() {
		return fmt.Errorf("deepcopy: %T cannot be copied to %T", src, dst)
	}
	to.Elem().Set(copied(from))
	return nil
}

// copied returns a value of the type of from.
func copied(from reflect.Value) reflect.Value {
	to := reflect.New(from.Type()).Elem()
	switch from.Kind() {
	case reflect.Pointer:
		if !from.IsNil() {
			to.Set(reflect.New(from.Type().Elem()))
			to.Elem().Set(copied(from.Elem()))
		}
	case reflect.Interface:
		if !from.IsNil() {
			to.Set(copied(from.Elem()))
		}
	case reflect.Slice:
		if !from.IsNil() {
			to.Set(reflect.MakeSlice(from.Type(), from.Len(), from.Len()))
			each(to, from)
		}
	case reflect.Array:
		each(to, from)
	case reflect.Map:
		if !from.IsNil() {
			to.Set(reflect.MakeMapWithSize(from.Type(), from.Len()))
			for entries := from.MapRange(); entries.Next(); {
				to.SetMapIndex(copied(entries.Key()), copied(entries.Value()))
			}
		}
	case reflect.Struct:
		for i := range from.NumField() {
			if from.Type().Field(i).IsExported() {
				to.Field(i).Set(copied(from.Field(i)))
			}
		}
	default:
		to.Set(from)
	}
	return to
}

func each(to, from reflect.Value) {
	for i := range from.Len() {
		to.Index(i).Set(copied(from.Index(i)))
	}
}
