package screening

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"waterward/screening/layers"
)

// Features share what they state only if they state the same in every respect: whatever
// field differs, they do not, nor where one states nothing.
func TestFeaturesThatStateTheSame(t *testing.T) {
	nan := math.NaN()
	plain := layers.Stated{Accuracy: nan, Elevation: nan, Levelled: nan, Width: nan}
	again := plain
	require.True(t, plain.Same(&again), "unstated is the same as unstated")
	fields := reflect.TypeOf(plain)
	for i := range fields.NumField() {
		other := plain
		switch field := settable(&other, i); field.Kind() {
		case reflect.Float64:
			field.SetFloat(1)
		case reflect.Int:
			field.SetInt(1)
		case reflect.Bool:
			field.SetBool(true)
		case reflect.String:
			field.SetString("x")
		default:
			t.Fatalf("%s is of a kind that this test does not know", fields.Field(i).Name)
		}
		require.False(t, plain.Same(&other), fields.Field(i).Name)
		require.False(t, other.Same(&plain), fields.Field(i).Name)
	}
}

// settable is an unexported field that may be set.
func settable(of *layers.Stated, field int) reflect.Value {
	v := reflect.ValueOf(of).Elem().Field(field)
	return reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem()
}
