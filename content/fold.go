package content

// Comparing names as people type them, and the address of a name.

import (
	"strings"

	"github.com/gosimple/slug"
	"golang.org/x/text/unicode/norm"
)

// Fold makes names comparable: composed characters (Unicode NFC), lower case,
// single spaces, none at the ends.
func Fold(s string) string {
	return strings.Join(strings.Fields(strings.ToLower(norm.NFC.String(s))), " ")
}

// NFC is a name in composed characters with single spaces, its case kept: the
// form in which the guide's own words are stored.
func NFC(s string) string { return strings.Join(strings.Fields(norm.NFC.String(s)), " ") }

// Address is the last part of a page's address: a name in small letters,
// digits and hyphens. It is "" where a name holds nothing that can stand
// there; the caller reports that.
func Address(name string) string { return slug.MakeLang(norm.NFC.String(name), "en") }

// FileAddress is the address of a file by its name, and reports a name that
// gives none.
func FileAddress(f *File, ps *Problems) string {
	base := f.Path[strings.LastIndexByte(f.Path, '/')+1:]
	if i := strings.LastIndexByte(base, '.'); i > 0 {
		base = base[:i]
	}
	a := Address(base)
	if a == "" {
		ps.Errorf("no-address", f.At(0, 0), "give the file a name with letters or digits", "the file name %q gives no address", f.Path)
	}
	return a
}
