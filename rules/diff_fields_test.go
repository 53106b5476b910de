package rules

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Whatever single thing in a book is changed, there is a sentence; a field added
// later fails here until it has one.
func TestDiffSeesEveryField(t *testing.T) {
	changed := 0
	acre, _ := FindUnit("acre", Area) // in which neither book has a limit
	// leaves changes each value below v, calls see, and puts the value back.
	var leaves func(at string, v reflect.Value, see func(at string))
	leaves = func(at string, v reflect.Value, see func(at string)) {
		with := func(x any) {
			was := reflect.ValueOf(v.Interface())
			v.Set(reflect.ValueOf(x).Convert(v.Type()))
			see(at)
			v.Set(was)
			changed++
		}
		idle := ""
		switch x := v.Interface().(type) {
		case Demand: // what a demand of this kind does not use; Known follows from the words of the book
			idle = " Known"
			if len(x.Words) > 0 {
				idle += " Limit Unit Fraction"
			}
			if len(x.Others) == 0 {
				idle += " Pick"
			}
		case Ref: // a measure among several takes no parameter, and has the age of the first
			if strings.Contains(at, ".Others[") {
				idle += " Opening Every MaxAge"
			}
		case time.Time:
			with(time.Date(1999, 1, 2, 0, 0, 0, 0, time.UTC))
			return
		case Measure: // follows from the name in Ref
			return
		case Unit:
			with(acre)
			return
		case []*Example: // rules nothing
			return
		}
		switch v.Kind() {
		case reflect.String:
			with("changed")
		case reflect.Bool:
			with(!v.Bool())
		case reflect.Int:
			with(v.Int() + 1)
		case reflect.Float64:
			with(v.Float() + 1)
		case reflect.Map:
			for _, key := range v.MapKeys() {
				was := v.MapIndex(key)
				v.SetMapIndex(key, reflect.Value{})
				changed++
				see(fmt.Sprintf("%s[%s]", at, key))
				v.SetMapIndex(key, was)
			}
		case reflect.Pointer:
			if !v.IsNil() {
				leaves(at, v.Elem(), see)
			}
		case reflect.Slice:
			for i := range v.Len() {
				leaves(fmt.Sprintf("%s[%d]", at, i), v.Index(i), see)
			}
			if v.Len() > 0 {
				with(v.Slice(0, v.Len()-1).Interface())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				if field := v.Type().Field(i); field.IsExported() && !strings.Contains(idle, field.Name) {
					leaves(at+"."+field.Name, v.Field(i), see)
				}
			}
		default:
			t.Fatalf("%s: a kind of field this test does not know: %s", at, v.Kind())
		}
	}
	for _, text := range []string{whole, ladder} {
		book, same := load(t, text), load(t, text)
		leaves("Book", reflect.ValueOf(book).Elem(), func(at string) {
			require.NotEmpty(t, Diff(same, book), at)
			require.NotEmpty(t, Diff(book, same), at)
		})
		require.Empty(t, Diff(same, book))
	}
	require.Greater(t, changed, 200)
}
