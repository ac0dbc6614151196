package draw

// Partials: the figures as files, templates/figures/*.svg, read once. A partial is plain SVG in
// thousandths of a body's length (head left, feet down) with a few words of our own:
//
//	polygon, polyline   a smooth curve through the points, closed or open
//	path                straight lines, or with data-smooth curves, one from each M
//	data-leg="w …"      coxa, knee, ankle and foot become a leg w wide at the thigh
//	data-taper="w0 w1"  a thread along the points, w0 wide at its root and w1 at its end
//	data-trunk="a b p"  a body along the points, a − b·tᵖ half as wide, with data-rings joints
//	data-when="x !y"    drawn where the insect has x and hasn't y; fine is in the large picture only
//	data-scale="wing"   stretched as the insect says
//	data-unit="gape"    of the size that the figure says, wherever it is placed
//	fill, stroke        a part's name, or "wing shade 45" (see tint)
//	class="mirror"      the lower half; the upper mirrors it
//	use                 a group of defs; #tails and #antenna are drawn by the writer

import (
	"encoding/xml"
	"fmt"
	"io"
	"io/fs"
	"math"
	"path"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"guidegen/templates"
)

// node is one element of a partial.
type node struct {
	name string
	attr map[string]string
	kids []*node
	when []string
	m    affine // of its transform
	c    []curve
}

// partials are all groups that have an id, by it.
var partials = sync.OnceValues(func() (map[string]*node, error) { return readPartials(templates.Files) })

func readPartials(files fs.FS) (map[string]*node, error) {
	names, err := fs.Glob(files, "figures/*.svg")
	if err != nil {
		return nil, err
	}
	all := map[string]*node{}
	for _, name := range names {
		if path.Base(name) == statesFile {
			continue
		}
		f, err := files.Open(name)
		if err != nil {
			return nil, err
		}
		err = readPartial(f, all)
		f.Close()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return all, nil
}

func readPartial(r io.Reader, all map[string]*node) error {
	d := xml.NewDecoder(r)
	open := []*node{{}}
	for {
		t, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		switch t := t.(type) {
		case xml.StartElement:
			n := &node{name: t.Name.Local, attr: map[string]string{}}
			for _, a := range t.Attr {
				n.attr[a.Name.Local] = a.Value
			}
			if err := n.read(); err != nil {
				line, _ := d.InputPos()
				return fmt.Errorf("line %d: %w", line, err)
			}
			if id := n.attr["id"]; id != "" {
				if all[id] != nil {
					return fmt.Errorf("two groups are called %q", id)
				}
				all[id] = n
			}
			top := open[len(open)-1]
			top.kids = append(top.kids, n)
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

// read makes what is written in the attributes.
func (n *node) read() (err error) {
	n.when = strings.Fields(n.attr["data-when"])
	if n.m, err = transform(n.attr["transform"]); err != nil {
		return err
	}
	switch n.name {
	case "polygon", "polyline":
		c, err := points(n.attr["points"])
		c.bend, c.closed = smooth, n.name == "polygon"
		n.c = []curve{c}
		return err
	case "path":
		for d := range strings.SplitSeq(strings.TrimPrefix(n.attr["d"], "M"), "M") {
			c, err := points(d)
			if err != nil {
				return err
			}
			if c.closed = strings.HasSuffix(d, "z"); n.attr["data-smooth"] != "" {
				c.bend = smooth
			}
			n.c = append(n.c, c)
		}
	case "ellipse":
		o, err := n.floats("cx", "cy", "rx", "ry")
		if err != nil {
			return err
		}
		c := pt{o[0], o[1]}
		n.c = []curve{{bend: oval, at: []pt{c, c.plus(pt{o[2], 0}), c.plus(pt{0, o[3]})}}}
	}
	return nil
}

// points reads "x,y x,y …".
func points(s string) (c curve, err error) {
	v, err := floats(s)
	if err != nil || len(v) < 4 || len(v)%2 != 0 {
		return c, fmt.Errorf("these are not points: %q", s)
	}
	for i := 0; i < len(v); i += 2 {
		c.at = append(c.at, pt{v[i], v[i+1]})
	}
	return c, nil
}

func (n *node) floats(names ...string) (out []float64, err error) {
	for _, a := range names {
		v, err := strconv.ParseFloat(n.attr[a], 64)
		if err != nil {
			return nil, fmt.Errorf("%s isn't a number: %q", a, n.attr[a])
		}
		out = append(out, v)
	}
	return out, nil
}

// list is an attribute of several numbers, as many as asked for; what is missing is 0.
func (n *node) list(name string, many int) []float64 {
	v, _ := floats(n.attr[name])
	return append(v, make([]float64, max(0, many-len(v)))...)
}

var separators = strings.NewReplacer(",", " ", "z", " ")

func floats(s string) (out []float64, err error) {
	for _, f := range strings.Fields(separators.Replace(s)) {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

var transforms = regexp.MustCompile(`(translate|rotate|scale)\(([^)]*)\)`)

// transform reads translate, rotate (also about a point) and scale.
func transform(s string) (affine, error) {
	m := same
	for _, t := range transforms.FindAllStringSubmatch(s, -1) {
		v, err := floats(t[2])
		if err != nil || len(v) == 0 {
			return m, fmt.Errorf("not a transform: %q", t[0])
		}
		switch v = append(v, 0, 0); t[1] {
		case "translate":
			m = m.after(affine{1, 0, 0, 1, v[0], v[1]})
		case "scale":
			if len(v) == 3 {
				v[1] = v[0]
			}
			m = m.after(affine{a: v[0], d: v[1]})
		case "rotate":
			sin, cos := math.Sincos(v[0] * math.Pi / 180)
			m = m.after(affine{1, 0, 0, 1, v[1], v[2]}).after(affine{cos, sin, -sin, cos, 0, 0})
			m = m.after(affine{1, 0, 0, 1, -v[1], -v[2]})
		}
	}
	return m, nil
}
