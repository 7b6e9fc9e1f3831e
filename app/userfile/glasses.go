package userfile

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"time"

	"github.com/BurntSushi/toml"

	"skep/app/savefile"
	"skep/calc/design/file"
	"skep/calc/glasstest"
	"skep/calc/message"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// GlassesIn is the file with a person's blind tastings, in the folder of their own
// files.
func GlassesIn(folder string) string { return filepath.Join(folder, "glass-test.toml") }

// glassesFormat is raised when an older Skep could not read the file rightly.
const glassesFormat = 1

const glassesHead = `# Blind tastings of the glass test. What each beer held stands beside the answers,
# so that they can be read without the batches. An answer is "first", "second" or
# "alike". A pair or a triangle that went wrong can be taken out here.

`

// Glasses are a person's blind tastings.
type Glasses struct {
	Format   int             `toml:"format"`
	Pair     []GlassPair     `toml:"pair"`
	Triangle []GlassTriangle `toml:"triangle"`
}

// GlassPair is two glasses and what was said of them.
type GlassPair struct {
	At     time.Time `toml:"at"`
	Drier  string    `toml:"drier"`
	Fuller string    `toml:"fuller"`
	First  GlassBeer `toml:"first"`
	Second GlassBeer `toml:"second"`
}

// GlassTriangle is three glasses, two of one beer, and whether the odd one was found.
type GlassTriangle struct {
	At    time.Time `toml:"at"`
	Beers [2]string `toml:"beers"` // in the order of their names
	Right bool      `toml:"right"`
}

// GlassBeer is a beer as it was poured.
type GlassBeer struct {
	Name               string  `toml:"name"`
	StrengthPct        float64 `toml:"strength_pct"`
	RealAttenuationPct float64 `toml:"real_attenuation_pct"`
	HoneyLeftGL        float64 `toml:"honey_left_g_l"`
	GlucoseGL          float64 `toml:"glucose_g_l"`
	FructoseGL         float64 `toml:"fructose_g_l"`
	SucroseGL          float64 `toml:"sucrose_g_l"`
	MaltoseGL          float64 `toml:"maltose_g_l"`
	MaltotrioseGL      float64 `toml:"maltotriose_g_l"`
	DextrinGL          float64 `toml:"dextrin_g_l"`
	OtherGL            float64 `toml:"other_g_l"`
}

// NewGlassBeer is a beer of some name.
func NewGlassBeer(name string, g taste.Glass) GlassBeer {
	r := g.Residue
	return GlassBeer{name, g.ABVPct, g.RDFPct, g.HoneyLeftGL, r.Glucose, r.Fructose, r.Sucrose, r.Maltose, r.Maltotriose, r.Dextrin, r.Other}
}

// Glass is what it tastes by.
func (b *GlassBeer) Glass() taste.Glass {
	return taste.Glass{ABVPct: b.StrengthPct, RDFPct: b.RealAttenuationPct, HoneyLeftGL: b.HoneyLeftGL, Residue: sugar.Spectrum{
		Glucose: b.GlucoseGL, Fructose: b.FructoseGL, Sucrose: b.SucroseGL, Maltose: b.MaltoseGL, Maltotriose: b.MaltotrioseGL, Dextrin: b.DextrinGL, Other: b.OtherGL,
	}}
}

// answerWords are the answers as the file has them; empty was not asked.
var answerWords = map[string]glasstest.Answer{"": glasstest.NotAsked, "first": glasstest.First, "second": glasstest.Second, "alike": glasstest.Alike}

// AnswerWord is an answer as the file has it.
func AnswerWord(a glasstest.Answer) string {
	for word, is := range answerWords {
		if is == a {
			return word
		}
	}
	return ""
}

// Pairs are the pairs as they are heard.
func (g *Glasses) Pairs() []glasstest.Pair {
	var out []glasstest.Pair
	for i := range g.Pair {
		p := &g.Pair[i]
		out = append(out, glasstest.Pair{First: p.First.Glass(), Second: p.Second.Glass(), Drier: answerWords[p.Drier], Fuller: answerWords[p.Fuller]})
	}
	return out
}

// Triangles are how often the odd glass was found, by the two beers' names.
func (g *Glasses) Triangles() map[[2]string]glasstest.Triangles {
	out := map[[2]string]glasstest.Triangles{}
	for _, t := range g.Triangle {
		x := out[t.Beers]
		x.Trials++
		if t.Right {
			x.Right++
		}
		out[t.Beers] = x
	}
	return out
}

// LoadGlasses reads a person's tastings; a file that is not there has none.
func LoadGlasses(folder string) (Glasses, error) {
	g, _, err := readGlasses(GlassesIn(folder))
	return g, err
}

// readGlasses is LoadGlasses with the text of the file.
func readGlasses(path string) (g Glasses, src []byte, err error) {
	src, err = savefile.Read(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Glasses{Format: glassesFormat}, nil, nil
	}
	if err != nil {
		return Glasses{}, nil, err
	}
	if _, err := toml.Decode(string(src), &g); err != nil {
		var at toml.ParseError
		if errors.As(err, &at) {
			return Glasses{}, nil, message.After(fmt.Sprintf("%s:%d: ", path, at.Position.Line), message.New("{problem}; mend it, or move the file away", file.SyntaxProblem(at))).Err()
		}
		return Glasses{}, nil, message.After(path+": ", message.New("{problem}; mend it, or move the file away", err)).Err()
	}
	if g.Format > glassesFormat {
		return Glasses{}, nil, message.NewError("{path}: format is {format}, this Skep knows {known}: it is of a newer Skep and is left as it is", path, g.Format, glassesFormat)
	}
	for i := range g.Pair {
		p := &g.Pair[i]
		for key, word := range map[string]string{"drier": p.Drier, "fuller": p.Fuller} {
			if _, ok := answerWords[word]; !ok {
				return Glasses{}, nil, message.NewError("{path}: {key} is {value}, expected first, second or alike", path, fmt.Sprintf("pair.%d.%s", i, key), strconv.Quote(word))
			}
		}
	}
	return g, src, nil
}

// AddGlasses writes more tastings behind those that are there. A file with a mistake
// is left as it is.
func AddGlasses(folder string, pairs []GlassPair, triangles []GlassTriangle) (Glasses, error) {
	path := GlassesIn(folder)
	g, src, err := readGlasses(path)
	if err != nil {
		return g, err
	}
	var out bytes.Buffer
	if src == nil {
		fmt.Fprintf(&out, "%sformat = %d\n", glassesHead, glassesFormat)
	} else { // what stands there stays, a person's own words with it
		out.Write(bytes.TrimRight(src, "\n"))
		out.WriteString("\n")
	}
	out.WriteString("\n")
	encoder := toml.NewEncoder(&out)
	encoder.Indent = ""
	if err := encoder.Encode(struct {
		Pair     []GlassPair     `toml:"pair,omitempty"`
		Triangle []GlassTriangle `toml:"triangle,omitempty"`
	}{pairs, triangles}); err != nil {
		return g, err
	}
	if err := savefile.MakeFolder(folder, folderMode); err != nil {
		return g, &savefile.Error{Doing: savefile.Saving, Path: path, Err: err}
	}
	if err := savefile.Write(path, out.Bytes()); err != nil {
		return g, err
	}
	g.Pair, g.Triangle = append(g.Pair, pairs...), append(g.Triangle, triangles...)
	return g, nil
}
