package share

// Ids that stay the same from one publication to the next.

import (
	"cmp"
	"crypto/sha1"
	"fmt"
	"strings"

	"guidegen/build/figures"
)

// urlSpace is the namespace for addresses, RFC 9562 section 6.6.
var urlSpace = [16]byte{0x6b, 0xa7, 0xb8, 0x11, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8}

// uuid names a thing of this guide: by the site's address, else by the guide's
// and publisher's names.
func uuid(book *figures.Book, name ...string) string {
	s := book.Edition.Settings
	return uuid5(urlSpace, cmp.Or(s.Address, s.Publisher+"\x00"+s.Name)+"\x00"+strings.Join(name, "\x00"))
}

// uuid5 is the name-based UUID of RFC 9562 section 5.5.
func uuid5(space [16]byte, name string) string {
	h := sha1.Sum(append(space[:], name...))
	h[6], h[8] = h[6]&0x0f|0x50, h[8]&0x3f|0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", h[:4], h[4:6], h[6:8], h[8:10], h[10:16])
}
