package calls

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing/iotest"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/uncertainty"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/lab"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
	"millmaths.example/paperprop/trim"
	"millmaths.example/paperprop/water"
	"millmaths.example/stock/line"

	"github.com/shopspring/decimal"
)

// Numbers at the edges of what a float64 holds, and some that are well taken.
var (
	edges = []float64{
		0, math.Copysign(0, -1), math.NaN(), math.Inf(1), math.Inf(-1),
		math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64,
		0x1p-1022, 1e300, -1e300, 1e-300, 1 << 53, 1<<53 + 2, -1, 1, 2, 100,
	}
	ordinary = []float64{0, 0.04, 0.1, 0.5, 0.9, 1, 1.5, 3, 5, 10, 20, 60, 100, 120, 500, 1500, 1e4}
	texts    = []string{
		"", " ", "4 %", "120 g/m²", "500 t/h ± 1 %", "9.5 13.2 11 %", "[1 2 3 | 4 5 6] g", "3..5 % by 0.25 %", "mass=4 g; count=?",
		"NaN", "-Inf", "1e999999999", "1e-400 kg", "0x1p-3 m", "1_000", "4,0", "-0 t/h", "5.", "..", "?", "± 1", "@", "@no such file", "=", ";;", "a=b=c",
		"\x00", "\xff\xfe", "\u202e4 %", "4\u00a0%", "µ", "lb/(h ft2)", "kg/((((", strings.Repeat("9", 100), strings.Repeat("(", 200), "a*b + pow(c, 2)", "y = a/0",
		`{"mass":"4 g"}`, `{"mass":{"value":null}}`, "[", "head\n1\n2", "h;i\n1,5;2\n", "\"", "\"a\nb", "id,calculation,inputs,expected,tolerance,kind,source,note\n1,dilution,,,,,,\n",
		"[line]\nname = 1\n", "[[orders]]\nwidth = -1\n", "windows-1252", "confidence", "mean",
	}
	wholes = []int64{0, 1, -1, 2, 3, 7, 100, math.MaxInt64, math.MinInt64, math.MaxInt32, math.MinInt32, 255}
)

// A maker makes arguments.
type maker struct {
	*rand.Rand
	ways ways
}

// ways tell how to make values of a type, or what to hand over for an interface.
type ways struct {
	made            map[reflect.Type]func(m maker) reflect.Value
	implementations map[reflect.Type]func(m maker) any
}

func allWays() ways { return ways{made(), implementations()} }

func pick[T any](m maker, from []T) T { return from[m.IntN(len(from))] }

func (m maker) number() float64 {
	if m.IntN(2) == 0 {
		return pick(m, edges)
	}
	return pick(m, ordinary)
}

// text is one of the texts, at times broken.
func (m maker) text() string {
	s := pick(m, texts)
	if m.IntN(4) > 0 || s == "" {
		return s
	}
	b := []byte(s)
	b[m.IntN(len(b))] = byte(m.IntN(256))
	return string(b)
}

// make makes any value of a type. A struct's hidden fields are zero, unless
// made says how the library itself makes one.
func (m maker) make(t reflect.Type, depth int) reflect.Value {
	if how, ok := m.ways.made[t]; ok {
		return how(m)
	}
	v := reflect.New(t).Elem()
	switch t.Kind() {
	case reflect.Float64, reflect.Float32:
		v.SetFloat(m.number())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(pick(m, wholes))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(pick(m, wholes)))
	case reflect.Bool:
		v.SetBool(m.IntN(2) == 0)
	case reflect.String:
		v.SetString(m.text())
	case reflect.Pointer:
		if m.IntN(4) > 0 && depth < 4 {
			return m.filled(t.Elem(), depth)
		}
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Uint8 {
			if m.IntN(8) > 0 {
				v.SetBytes([]byte(m.text()))
			}
			return v
		}
		if n := m.IntN(6); n > 0 && depth < 4 {
			v.Set(reflect.MakeSlice(t, 0, n))
			for range n - 1 {
				v.Set(reflect.Append(v, m.make(t.Elem(), depth+1)))
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			v.Index(i).Set(m.make(t.Elem(), depth+1))
		}
	case reflect.Map:
		if n := m.IntN(4); n > 0 && depth < 4 {
			v.Set(reflect.MakeMap(t))
			for range n - 1 {
				v.SetMapIndex(m.make(t.Key(), depth+1), m.make(t.Elem(), depth+1))
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if t.Field(i).IsExported() {
				v.Field(i).Set(m.make(t.Field(i).Type, depth+1))
			}
		}
	case reflect.Func:
		return m.function(t)
	case reflect.Interface:
		if how := m.ways.implementations[t]; how != nil {
			if x := how(m); x != nil {
				v.Set(reflect.ValueOf(x))
			}
		}
	default:
		panic(fmt.Sprintf("no %v can be made: say how in made", t))
	}
	return v
}

// filled makes a pointer that is not nil.
func (m maker) filled(t reflect.Type, depth int) reflect.Value {
	p := reflect.New(t)
	p.Elem().Set(m.make(t, depth+1))
	return p
}

// function makes a function that answers anything.
func (m maker) function(t reflect.Type) reflect.Value {
	return reflect.MakeFunc(t, func([]reflect.Value) []reflect.Value {
		results := make([]reflect.Value, t.NumOut())
		for i := range results {
			results[i] = m.make(t.Out(i), 3)
		}
		return results
	})
}

// contexts are one that goes on, and one that has ended.
var contexts = func() []context.Context {
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	return []context.Context{context.Background(), context.Background(), ended}
}()

var errAny = errors.New("an error of the caller")

// implementations answer for interfaces; nil is the nil of any.
func implementations() map[reflect.Type]func(m maker) any {
	return map[reflect.Type]func(m maker) any{
		reflect.TypeFor[any]():       func(m maker) any { return pick(m, []any{nil, m.number(), m.text(), []byte(m.text()), int64(4), true}) },
		reflect.TypeFor[error]():     func(m maker) any { return pick(m, []any{errAny, &paperprop.RangeError{}, io.EOF}) },
		reflect.TypeFor[io.Writer](): func(maker) any { return io.Discard },
		reflect.TypeFor[io.Reader](): func(m maker) any {
			r := strings.NewReader(m.file())
			return pick(m, []io.Reader{r, iotest.OneByteReader(r), iotest.ErrReader(errAny), iotest.TimeoutReader(r)})
		},
		reflect.TypeFor[context.Context]():    func(m maker) any { return pick(m, contexts) },
		reflect.TypeFor[fmt.Stringer]():       func(m maker) any { return paperprop.Mass(m.number()) },
		reflect.TypeFor[calc.Calculation]():   func(m maker) any { return m.calculation() },
		reflect.TypeFor[paperprop.Property](): func(m maker) any { return m.filled(reflect.TypeFor[paperprop.Mass](), 0).Interface() },
	}
}

// file is a file of any sort, most often one that can be read.
func (m maker) file() string {
	return pick(m, []string{
		m.text(), m.text(), "a;b\n1,5;2\n3;4\n", forces,
		"grade,width,reels\nWhin,1640,12\nWhin,1220,8\n",
		jobFile, lineFile,
		"id,calculation,inputs,expected,tolerance,kind,source,note\na,air-dry,mass=1 t; dryness=90 %,dry-mass=900 kg,rel 1e-12,memory,x,\n",
	})
}

const forces = "force [N],strip-width [mm]\n1.5,15\n,\n2,15\nmean,15\n"

const jobFile = `
[slitter]
deckle = "3300 mm"
knives = 5

[[order]]
name = "A"
width = "1640 mm"
reels = 12

[[order]]
width = "820 mm"
reels = 7
`

const lineFile = `
[paper]
flow = "15 t/h"
`

func (m maker) calculation() calc.Calculation {
	c, _ := catalogue.Find(pick(m, names))
	return c
}

// sheet is one of any calculation, with its example in it, at times with
// something else put over it, most often run.
func (m maker) sheet() *calc.Sheet {
	for {
		c := m.calculation()
		if c.Info().Tool {
			continue
		}
		s := c.NewSheet()
		if err := s.SetText(c.Info().Example); err != nil {
			panic(err)
		}
		if m.IntN(3) == 0 {
			_ = s.Set(pick(m, s.In).Name, m.text())
		}
		if m.IntN(3) > 0 {
			_ = s.Run()
		}
		return s
	}
}

func (m maker) cell() *calc.Cell {
	s := m.sheet()
	return pick(m, slices.Concat(s.In, s.Out))
}

func (m maker) unit() paperprop.Unit {
	if m.IntN(10) == 0 {
		return paperprop.Unit{}
	}
	return pick(m, m.kind().Units())
}

func (m maker) kind() *paperprop.Kind { return pick(m, paperprop.Kinds()) }

// names are those of all calculations.
var names = catalogue.Names()

// made tells how the library makes a value of what nobody can write down. What
// is refused is made again.
func made() map[reflect.Type]func(m maker) reflect.Value {
	return map[reflect.Type]func(m maker) reflect.Value{
		typeOf[*calc.Sheet]():      func(m maker) reflect.Value { return reflect.ValueOf(m.sheet()) },
		typeOf[*calc.Cell]():       func(m maker) reflect.Value { return reflect.ValueOf(m.cell()) },
		typeOf[*calc.Field]():      func(m maker) reflect.Value { return reflect.ValueOf(m.cell().Field) },
		typeOf[*calc.Info]():       func(m maker) reflect.Value { return reflect.ValueOf(m.calculation().Info()) },
		typeOf[calc.Choice]():      func(m maker) reflect.Value { return reflect.ValueOf(pick(m, choices)) },
		typeOf[*calc.Tool]():       func(m maker) reflect.Value { return reflect.ValueOf(pick(m, tools)) },
		typeOf[*paperprop.Kind]():  func(m maker) reflect.Value { return reflect.ValueOf(m.kind()) },
		typeOf[paperprop.Unit]():   func(m maker) reflect.Value { return reflect.ValueOf(m.unit()) },
		typeOf[calc.Sample]():      func(m maker) reflect.Value { return again(m, maker.sample) },
		typeOf[calc.Uncertainty](): func(m maker) reflect.Value { return again(m, maker.uncertainty) },
		typeOf[*calc.ResultLine](): func(m maker) reflect.Value { return again(m, maker.resultLine) },
		typeOf[*calc.Solution](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*calc.Solution, error) { return m.sheet().Solution() })
		},
		typeOf[calc.Estimate](): func(m maker) reflect.Value {
			return again(m, func(m maker) (calc.Estimate, error) { return calc.ParseEstimate(m.text()) })
		},
		typeOf[*formula.Line](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*formula.Line, error) {
				lines := m.calculation().Info().Formula
				if len(lines) == 0 {
					return nil, errAny
				}
				return formula.Parse(pick(m, lines))
			})
		},
		typeOf[decimal.Decimal](): func(m maker) reflect.Value {
			return again(m, func(m maker) (decimal.Decimal, error) {
				return result.ParseDecimal(pick(m, []string{"0", "-0.00", "12.345", "1e300", "1e-300", "-7", strings.Repeat("9", 60)}))
			})
		},
		typeOf[result.Rule](): func(m maker) reflect.Value {
			return again(m, func(m maker) (result.Rule, error) {
				if m.IntN(2) == 0 {
					return result.Figures(1+m.IntN(17), result.Tie(m.IntN(2))), nil
				}
				return result.Step(pick(m, []string{"1", "0.5", "0.01", "5", "1e6", "2.5", m.text()}), result.Tie(m.IntN(2)))
			})
		},
		typeOf[water.Saturation](): func(m maker) reflect.Value {
			return again(m, func(m maker) (water.Saturation, error) {
				return water.SaturatedAt(paperprop.Celsius(400 * m.Float64()))
			})
		},
		typeOf[water.Properties](): func(m maker) reflect.Value {
			return again(m, func(m maker) (water.Properties, error) {
				return water.Vapour(paperprop.Celsius(900*m.Float64()), paperprop.AbsolutePressure(m.number()))
			})
		},
		typeOf[water.Air](): func(m maker) reflect.Value {
			return again(m, func(m maker) (water.Air, error) {
				return water.AirWithRelative(paperprop.Temperature(m.number()), paperprop.Fraction(m.Float64()), paperprop.AbsolutePressure(m.number()))
			})
		},
		typeOf[*table.Layout](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*table.Layout, error) {
				r, err := table.Open(strings.NewReader(m.file()), table.Options{})
				if err != nil {
					return nil, err
				}
				return r.Layout(), nil
			})
		},
		typeOf[*table.Reader](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*table.Reader, error) { return table.Open(strings.NewReader(m.file()), table.Options{}) })
		},
		typeOf[*batch.Totals](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*batch.Totals, error) {
				totals, err := m.batch().Run(context.Background(), strings.NewReader(pick(m, []string{forces, forces, m.file()})), io.Discard)
				return &totals, err
			})
		},
		typeOf[*batch.Bound](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*batch.Bound, error) {
				r, err := table.Open(strings.NewReader(forces), table.Options{})
				if err != nil {
					return nil, err
				}
				return (&batch.Job{Calculation: strip, Full: m.IntN(2) == 0}).Bind(r.Layout())
			})
		},
		typeOf[*trim.Job](): func(m maker) reflect.Value { return reflect.ValueOf(m.job()) },
		typeOf[trim.Job]():  func(m maker) reflect.Value { return reflect.ValueOf(m.job()).Elem() },
		typeOf[*trim.Plan](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*trim.Plan, error) { return m.job().Plan(context.Background()) })
		},
		typeOf[*line.Line]():   func(m maker) reflect.Value { return reflect.ValueOf(m.line()) },
		typeOf[*line.Figure](): func(m maker) reflect.Value { l := m.line(); return reflect.ValueOf(&l.Figures[m.IntN(len(l.Figures))]) },
		typeOf[line.Figure]():  func(m maker) reflect.Value { l := m.line(); return reflect.ValueOf(pick(m, l.Figures)) },
		typeOf[*line.Result](): func(m maker) reflect.Value { r := m.line().Results(); return reflect.ValueOf(&r[m.IntN(len(r))]) },
		typeOf[*line.Answer](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*line.Answer, error) { return m.line().Solve() })
		},
		typeOf[*line.Solver](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*line.Solver, error) { return m.line().NewSolver() })
		},
		typeOf[*making.Book](): func(m maker) reflect.Value { return again(m, maker.book) },
		typeOf[*making.Plan](): func(m maker) reflect.Value { return again(m, maker.making) },
		typeOf[*making.Run](): func(m maker) reflect.Value {
			return again(m, func(m maker) (*making.Run, error) {
				p, err := m.making()
				if err != nil {
					return nil, err
				}
				return &p.Runs[m.IntN(len(p.Runs))], nil
			})
		},
		typeOf[making.Opener](): func(m maker) reflect.Value {
			return reflect.ValueOf(making.Opener(func(string) (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(m.file())), nil }))
		},
		typeOf[lab.Scans](): func(m maker) reflect.Value {
			return again(m, func(m maker) (lab.Scans, error) { return lab.CleanScans([][]float64{{1, 2, m.number()}, {3, 4, 5}}) })
		},
		typeOf[*table.Block]():  func(maker) reflect.Value { return reflect.ValueOf(new(table.Block)) },
		typeOf[*table.Record](): func(maker) reflect.Value { return reflect.ValueOf(new(table.Record)) },
	}
}

func typeOf[T any]() reflect.Type { return reflect.TypeFor[T]() }

// together makes the arguments of a function whose arguments must fit together,
// as an index fits its list.
var together = map[string]func(m maker) []any{
	"line.Solver.Figure": func(m maker) []any { s := m.solver(); return []any{s, m.IntN(len(quillbeck().Figures))} },
	"line.Solver.Set":    func(m maker) []any { s := m.solver(); return []any{s, m.IntN(len(quillbeck().Figures)), m.number()} },
	"batch.Totals.MarshalSummary": func(m maker) []any {
		j := m.batch()
		totals, err := j.Run(context.Background(), strings.NewReader(forces), io.Discard)
		if err != nil {
			panic(err)
		}
		return []any{&totals, j, m.number()}
	},
	"trim.Plan.JSON": func(m maker) []any { p, j := m.plan(); return []any{p, j, paperprop.Millimetre.Kind().Print()} },
	"trim.Plan.Mass": func(m maker) []any { p, j := m.plan(); return []any{p, j} },
	"uncertainty.Bends": func(m maker) []any {
		return []any{uncertainty.Function(func(t []float64) ([]float64, error) { return []float64{t[0] * m.number()}, nil }), 1 + m.IntN(4)}
	},
	"table.Record.AppendRow": func(m maker) []any { return []any{new(table.Record), []byte(nil), m.IntN(50) - 1, byte(m.IntN(256))} }, // so many cells are written
	"uncertainty.Freedom":    func(m maker) []any { a, b := m.pair(); return []any{m.number(), a, b[m.IntN(len(b)+1):]} },
	"uncertainty.Covariance": func(m maker) []any {
		a, b := m.pair()
		return []any{a, b, uncertainty.Correlation(uncertainty.Independent)}
	},
}

func (m maker) pair() (a, b []float64) {
	for range m.IntN(5) {
		a, b = append(a, m.number()), append(b, m.number())
	}
	return a, b
}

func (m maker) batch() *batch.Job {
	return &batch.Job{Calculation: strip, Together: m.IntN(2) == 0, Full: m.IntN(2) == 0, Workers: 1}
}

func (m maker) solver() *line.Solver {
	s, err := quillbeck().NewSolver()
	if err != nil {
		panic(err)
	}
	return s
}

func (m maker) plan() (*trim.Plan, *trim.Job) {
	for {
		j := m.job()
		if p, err := j.Plan(context.Background()); err == nil {
			return p, j
		}
	}
}

// again calls f until it gives no error.
func again[T any](m maker, f func(m maker) (T, error)) reflect.Value {
	for range 10_000 {
		if x, err := f(m); err == nil {
			return reflect.ValueOf(&x).Elem()
		}
	}
	panic(fmt.Sprintf("%v is always refused", reflect.TypeFor[T]()))
}

// job is one to slit, of few reels.
func (m maker) job() *trim.Job {
	j := &trim.Job{
		Parents: []trim.Parent{{Deckle: 3300}},
		Slitter: trim.Slitter{MostReels: 5},
		Partly:  m.IntN(2) == 0,
	}
	for range m.IntN(4) {
		width := paperprop.Length(300 + m.IntN(2000))
		if m.IntN(10) == 0 {
			width = paperprop.Length(m.number())
		}
		j.Orders = append(j.Orders, trim.Order{Width: width, Least: m.IntN(8), Most: m.IntN(8)})
	}
	return j
}

var quillbeck = sync.OnceValue(func() *line.Line {
	l, err := line.ReadFile("../../../examples/quillbeck/harebell-120.toml")
	if err != nil {
		panic(err)
	}
	return l
})

// line is a machine line, at times with another value of a figure.
func (m maker) line() *line.Line {
	l := quillbeck()
	if m.IntN(2) == 0 {
		if other, err := l.With(pick(m, l.Figures).Name, fmt.Sprintf("%g %%", pick(m, ordinary))); err == nil {
			return other
		}
	}
	return l
}

// book is an order book, at times with another uptime.
func (m maker) book() (*making.Book, error) {
	var set []making.Setting
	if m.IntN(2) == 0 {
		set = append(set, making.Setting{Name: "uptime", Text: fmt.Sprintf("%g %%", pick(m, ordinary))})
	}
	return making.ReadFile("../../../examples/quillbeck/order-book.toml", table.Options{}, set...)
}

// making is a plan of one, from a search that is ended at once.
func (m maker) making() (*making.Plan, error) {
	b, err := m.book()
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return b.Plan(ctx)
}

func (m maker) sample() (calc.Sample, error) {
	s := m.sheet()
	for _, c := range s.In {
		if c.Shape == calc.One && c.Given() {
			_ = s.Set(c.Name, c.AsWritten()+" ± 1 %")
			break
		}
	}
	if err := s.Run(); err != nil {
		return calc.Sample{}, err
	}
	samples, err := calc.MonteCarlo{Draws: 100, Seed: 1, Workers: 1}.Run(context.Background(), s)
	if err == nil && len(samples) == 0 {
		return calc.Sample{}, errAny
	}
	if err != nil {
		return calc.Sample{}, err
	}
	return pick(m, samples), nil
}

func (m maker) uncertainty() (calc.Uncertainty, error) {
	s := m.sheet()
	for _, c := range s.In {
		if c.Shape == calc.One && c.Given() {
			_ = s.Set(c.Name, c.AsWritten()+" ± 1 %")
			break
		}
	}
	if err := s.Run(); err != nil {
		return calc.Uncertainty{}, err
	}
	all, err := s.Uncertainties()
	if err != nil || len(all) == 0 {
		return calc.Uncertainty{}, errAny
	}
	return pick(m, all), nil
}

func (m maker) resultLine() (*calc.ResultLine, error) {
	s := m.sheet()
	if err := s.Run(); err != nil {
		return nil, err
	}
	solution, err := s.Solution()
	if err != nil || len(solution.Results) == 0 {
		return nil, errAny
	}
	return &solution.Results[m.IntN(len(solution.Results))], nil
}

var strip = func() calc.Calculation { c, _ := catalogue.Find("strip-strength"); return c }()

// tools and choices are those of the catalogue.
var tools, choices = func() (tools []*calc.Tool, choices []calc.Choice) {
	for _, name := range names {
		c, _ := catalogue.Find(name)
		if t, ok := c.(*calc.Tool); ok {
			tools = append(tools, t)
		}
		choices = append(choices, c.Info().Exactly...)
	}
	return tools, choices
}()
