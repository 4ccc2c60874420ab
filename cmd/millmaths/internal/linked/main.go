// Command linked does nothing but link the libraries that millmaths links: the rest
// of the time that millmaths takes to start is our own. See BenchmarkStart.
package main

import (
	"bufio"
	"context"
	"database/sql/driver"
	"embed"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/token"
	"html"
	"image"
	"image/png"
	"io/fs"
	"maps"
	"math/big"
	"math/rand/v2"
	"os"
	"os/signal"
	"regexp"
	"time"

	"github.com/pelletier/go-toml/v2"
	"github.com/shopspring/decimal"
	"github.com/spf13/pflag"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"gonum.org/v1/gonum/mathext"
)

func main() {
	if len(os.Args) == 1 {
		return
	}
	f := pflag.NewFlagSet("linked", pflag.ContinueOnError)
	fmt.Println(*f.String("a", "b", "c"), *f.Duration("d", time.Second, "e"), f.Parse(os.Args), f.FlagUsages())
	var v map[string]any
	fmt.Println(toml.NewDecoder(os.Stdin).DisallowUnknownFields().Decode(&v))
	fmt.Println(json.NewDecoder(os.Stdin).Decode(&v), json.NewEncoder(os.Stdout).Encode(v))
	d, err := decimal.NewFromString(os.Args[1])
	fmt.Println(d.Div(d).Round(3), err, driver.Bool)
	parsed, err := opentype.Parse(goregular.TTF)
	face, _ := opentype.NewFace(parsed, nil)
	drawn := image.NewRGBA(image.Rect(0, 0, 9, 9))
	(&font.Drawer{Dst: drawn, Src: image.Black, Face: face, Dot: fixed.P(1, 1)}).DrawString("x")
	vector.NewRasterizer(3, 3).Draw(drawn, drawn.Bounds(), image.Black, image.Point{})
	fmt.Println(png.Encode(os.Stdout, drawn), err)
	chain := transform.Chain(charmap.Windows1252.NewDecoder(), unicode.UTF8.NewDecoder(), runes.ReplaceIllFormed())
	fmt.Println(csv.NewReader(transform.NewReader(os.Stdin, chain)).ReadAll())
	fmt.Println(mathext.RegIncBeta(1, 2, 3), regexp.MustCompile(os.Args[1]).MatchString("x"), html.EscapeString("x"))
	signal.Notify(make(chan os.Signal, 1), os.Interrupt)
	fmt.Println(new(big.Int).SetString("1", 10))
	fmt.Println(new(big.Rat).SetString("1/2"))
	fmt.Println(big.NewFloat(1), bufio.NewScanner(os.Stdin).Scan(), os.MkdirAll("x", 0), os.Rename("x", "y"))
	fmt.Println(fs.Glob(embed.FS{}, "*"))
	fmt.Println(os.OpenRoot("x"))
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	fmt.Println(ctx, maps.Equal(v, v))
	fmt.Println(rand.New(rand.NewPCG(1, 2)).Int(), token.ADD)
	ast.Inspect(&ast.Ident{}, func(ast.Node) bool { return false })
}
