package design

import (
	"reflect"
	"sync"

	"skep/calc/design/internal/schema"
)

// designSchema is the schema of [Design], built once and never changed.
var designSchema = sync.OnceValue(func() *schema.Schema {
	return schema.New(reflect.TypeOf(Design{}), keyTable())
})

func fresh[T any](name string) T {
	b := designSchema().Root
	for _, p := range splitPath(name) {
		b = b.ByName[p]
	}
	return b.Fresh().Interface().(T)
}

// New is a design with every default. It has no rest, grain, yeast, honey or
// hop yet, so it is not valid until it gets a rest, a grain and a yeast.
func New() Design { return designSchema().Root.Fresh().Interface().(Design) }

// NewRest is a rest with the defaults of the format.
func NewRest() Rest { return fresh[Rest]("mash.rest") }

// NewGrain is a grain with the defaults of the format.
func NewGrain() Grain { return fresh[Grain]("grain") }

// NewYeast is a yeast with the defaults of the format.
func NewYeast() Yeast { return fresh[Yeast]("yeast") }

// NewHoney is a honey with the defaults of the format.
func NewHoney() Honey { return fresh[Honey]("honey") }

// NewHop is a hop with the defaults of the format.
func NewHop() Hop { return fresh[Hop]("hop") }

// NewReading is a reading with the defaults of the format.
func NewReading() Reading { return fresh[Reading]("reading") }

// NewCrush is a crush with the defaults of the format.
func NewCrush() *Crush { c := fresh[Crush]("crush"); return &c }

// NewWater is a water with the defaults of the format.
func NewWater() *Water { w := fresh[Water]("water"); return &w }
