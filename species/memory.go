package species

import (
	"reflect"

	"guidegen/content"
)

// FromMemory counts the statements of an account that are from memory alone: values with a basis of their own. The
// account's own basis is what they inherit, and no statement.
func (a *Account) FromMemory() int { return remembers(reflect.ValueOf(*a)) }

var basisType, accountType = reflect.TypeFor[content.Basis](), reflect.TypeFor[Account]()

func remembers(v reflect.Value) (n int) {
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			n += remembers(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			switch {
			case !f.IsExported():
			case f.Type == basisType:
				if b := v.Field(i).Interface().(content.Basis); v.Type() != accountType && b.FromMemory() {
					n++
				}
			default:
				n += remembers(v.Field(i))
			}
		}
	}
	return n
}
