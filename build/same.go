package build

// What a site is made from, as a checksum: where it is that of the site that stands already, and that site is whole,
// there is nothing to draw.

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
)

var errStands = errors.New("the site stands already")

// madeFrom is a checksum of the program, the guide's files, the edition and the date; "" where it can't be told, as
// for a guide with a link to a folder. It is taken before the guide is read: a file that changes meanwhile is then
// drawn with another checksum than its own, and so again.
func (o Options) madeFrom() string {
	if o.Print {
		return "" // what a browser prints is not of our making
	}
	sum := sha256.New()
	fmt.Fprintf(sum, "%s %s %t\n", o.Edition, o.Date, o.Preview)
	program, err := os.Executable()
	if err != nil || addFile(sum, os.DirFS("/"), strings.TrimPrefix(program, "/")) != nil {
		return ""
	}
	err = fs.WalkDir(o.Source.Files, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (slices.Contains([]string{Public.Out(), Members.Out()}, name) || name != "." && strings.HasPrefix(d.Name(), ".")):
			return fs.SkipDir
		case d.IsDir():
			return nil
		case !d.Type().IsRegular():
			return errors.ErrUnsupported
		}
		fmt.Fprintf(sum, "%q\n", name)
		return addFile(sum, o.Source.Files, name)
	})
	if err != nil {
		return ""
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// addFile adds a file's own checksum, so that no two files run together.
func addFile(to io.Writer, in fs.FS, name string) error {
	f, err := in.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return err
	}
	_, err = to.Write(sum.Sum(nil))
	return err
}
