package calc

// A Picture is what a result looks like: curves and marks over two axes, as
// numbers, so that any face can draw it. Black and grey have to do: it may be
// printed.
type Picture struct {
	Title  string
	X, Y   Axis
	Equal  bool // a step along x is as long as one along y: a section through a thing
	Curves []Curve
	Marks  []Mark
}

// An Axis has its label with the unit. It makes room for all that is drawn, and
// for From and To where they differ.
type Axis struct {
	Label    string
	From, To float64
}

// A Curve is a line through points. The label stands at its last point.
type Curve struct {
	Label  string
	X, Y   []float64
	Light  bool // grey: a scale, not the matter itself
	Dashed bool
}

// Add appends a point.
func (c *Curve) Add(x, y float64) { c.X, c.Y = append(c.X, x), append(c.Y, y) }

// A Mark is a labelled point.
type Mark struct {
	Label string
	X, Y  float64
}

// Picture returns what the results of the sheet look like; nil where the
// calculation has no picture. The sheet must have run.
func (s *Sheet) Picture() *Picture {
	if !s.ran || s.picture == nil {
		return nil
	}
	return s.picture()
}
