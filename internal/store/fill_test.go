package store

import (
	"fmt"
	"math"
	"reflect"
	"time"

	"pgregory.net/rapid"

	"foldwright/internal/fold"
	"foldwright/internal/job"
	"foldwright/internal/paper"
	"foldwright/internal/shop"
)

// filled draws a shop with something in every field that there is, found by reflection: a field that is new in another
// room is filled too, and fails the test until it is kept. Values are as odd as their types allow.
func filled(t *rapid.T) *shop.Shop {
	s := new(shop.Shop)
	fill(t, reflect.ValueOf(s).Elem(), "shop")
	return s
}

// counts are the least and the greatest value of each type that counts words.
var counts = map[reflect.Type][2]uint64{
	reflect.TypeFor[fold.Op]():      {1, 4},
	reflect.TypeFor[fold.Face]():    {0, 1},
	reflect.TypeFor[fold.Axis]():    {0, 1},
	reflect.TypeFor[paper.Grain]():  {0, 2},
	reflect.TypeFor[paper.Finish](): {0, 3},
	reflect.TypeFor[job.Target]():   {0, 3},
}

var zones = []string{"UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe"}

func fill(t *rapid.T, v reflect.Value, label string) {
	switch v.Interface().(type) {
	case *time.Location:
		zone, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, label))
		if err != nil {
			t.Fatal(err)
		}
		v.Set(reflect.ValueOf(zone))
		return
	case time.Time:
		at := time.Unix(rapid.Int64Range(-5e9, 9e9).Draw(t, label), rapid.Int64Range(0, 999_999_999).Draw(t, label))
		if rapid.Bool().Draw(t, label+" given") {
			v.Set(reflect.ValueOf(at.UTC()))
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(t, v.Field(i), label+"."+v.Type().Field(i).Name)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(t, v.Index(i), label)
		}
	case reflect.Slice:
		n := rapid.IntRange(0, 2).Draw(t, label+" many")
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			fill(t, v.Index(i), label)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range rapid.IntRange(0, 2).Draw(t, label+" many") {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fill(t, key, label+" key")
			fill(t, value, label)
			v.SetMapIndex(key, value)
		}
	default:
		fillPlain(t, v, label)
	}
}

func fillPlain(t *rapid.T, v reflect.Value, label string) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z <>&"'\\é½]{0,8}`)).Draw(t, label))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, label))
	case reflect.Int, reflect.Int64:
		v.SetInt(rapid.Int64Range(math.MinInt64, math.MaxInt64).Draw(t, label))
	case reflect.Uint8:
		bounds, known := counts[v.Type()]
		if !known {
			panic("how many values has " + v.Type().String() + "?")
		}
		v.SetUint(rapid.Uint64Range(bounds[0], bounds[1]).Draw(t, label))
	case reflect.Float64:
		v.SetFloat(rapid.Float64().Draw(t, label))
	default:
		panic(fmt.Sprintf("%s: nobody knows how to fill a %s", label, v.Type()))
	}
}
