package board

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// BoxBlank is the blank of a regular slotted box.
type BoxBlank struct {
	Length          paperprop.Length   // of the box, at least Width
	Width           paperprop.Length   // of the box, above zero
	Height          paperprop.Length   // of the box, above zero
	Joint           paperprop.Length   // glue or stitch lap, zero or above
	LengthAllowance paperprop.Length   // for creases, added to the blank's length
	WidthAllowance  paperprop.Length   // for creases, added to the blank's width
	Grammage        paperprop.Grammage // of the board, above zero
}

// BoxBlankResult is the blank and its mass, without allowing for the slots.
type BoxBlankResult struct {
	BlankLength  paperprop.Length
	BlankWidth   paperprop.Length
	BlankArea    paperprop.Area
	BoxMass      paperprop.Mass
	BoxesPerMass paperprop.CountPerMass
}

// Calculate returns the blank: 2(l + b) + j + d_l long and h + b + d_b wide.
func (b BoxBlank) Calculate() (BoxBlankResult, error) { return boxBlank.Calculate(b) }

func (b BoxBlank) compute() (BoxBlankResult, error) {
	if b.Length < b.Width {
		return BoxBlankResult{}, calc.Refuse("length", b.Length, "at least width %v: the length is the longer side", b.Width)
	}
	length := 2*(b.Length+b.Width) + b.Joint + b.LengthAllowance
	width := b.Height + b.Width + b.WidthAllowance
	area := length.In(paperprop.Metre) * width.In(paperprop.Metre)
	mass := area * b.Grammage.In(paperprop.GramPerSquareMetre)
	return BoxBlankResult{
		BlankLength:  length,
		BlankWidth:   width,
		BlankArea:    paperprop.Area(area) * paperprop.SquareMetre,
		BoxMass:      paperprop.Mass(mass) * paperprop.Gram,
		BoxesPerMass: paperprop.CountPerMass(1/mass) * paperprop.PerGram,
	}, nil
}

var boxBlank = &calc.Description[BoxBlank, BoxBlankResult]{
	Name:    "box-blank",
	Title:   "Blank and mass of a regular slotted box",
	Answers: "What blank a regular slotted box (RSC, case, carton) takes, what the box weighs, and how many a tonne of board makes.",
	Formula: []string{"L = 2*(l + b) + j + d_l", "B = h + b + d_b", "A = L*B", "m = A*g", "n = 1/m"},
	Source:  "geometry of a regular slotted box",
	Status:  calc.CommonPractice,
	Example: "length=380 mm; width=280 mm; height=220 mm; joint=35 mm; length-allowance=14 mm; width-allowance=8 mm; grammage=419 g/m2",
	Mistakes: []string{
		"Slots are not taken off: the blank is what the board maker delivers.",
		"Inside dimensions need the allowances for creases, which grow with the thickness of the board.",
	},
	Compute: BoxBlank.compute,
	Fields: func(f *calc.Form, in *BoxBlank, out *BoxBlankResult) {
		calc.In(f, &in.Length, "length", "l", "mm", "of the box, the longer side").Above(0)
		calc.In(f, &in.Width, "width", "b", "mm", "of the box").Above(0)
		calc.In(f, &in.Height, "height", "h", "mm", "of the box").Above(0)
		calc.In(f, &in.Joint, "joint", "j", "mm", "glue or stitch lap").From(0)
		calc.In(f, &in.LengthAllowance, "length-allowance", "d_l", "mm", "for creases, over the blank's length").Default(0)
		calc.In(f, &in.WidthAllowance, "width-allowance", "d_b", "mm", "for creases, over the blank's width").Default(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the board").Above(0)
		calc.Out(f, &out.BlankLength, "blank-length", "L", "mm", "along the four panels")
		calc.Out(f, &out.BlankWidth, "blank-width", "B", "mm", "height and two half flaps")
		calc.Out(f, &out.BlankArea, "blank-area", "A", "m2", "slots not taken off")
		calc.Out(f, &out.BoxMass, "box-mass", "m", "g", "of the blank")
		calc.Out(f, &out.BoxesPerMass, "boxes-per-mass", "n", "1/t", "blanks from a mass of board")
	},
}
