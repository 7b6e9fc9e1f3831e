package design

import (
	"reflect"
	"sync"
	"time"
)

// branch is one place of the schema, tied to a field of a Go struct: a leaf
// holding a value, a table, or a list of tables.
type branch struct {
	name   string
	path   string // with N for positions
	index  []int  // of the field in the parent struct
	typ    reflect.Type
	key    *Key // of a leaf
	list   bool // []struct
	opt    bool // *struct: absent unless said
	kids   []*branch
	byName map[string]*branch
}

type schema struct {
	root   *branch
	keys   []*Key
	byPath map[string]*Key
}

// designSchema is the schema of [Design], built once and never changed.
var designSchema = sync.OnceValue(func() *schema {
	return newSchema(reflect.TypeOf(Design{}), keyTable())
})

func newSchema(t reflect.Type, keys []Key) *schema {
	s := &schema{byPath: make(map[string]*Key, len(keys))}
	for i := range keys {
		k := &keys[i]
		k.finish()
		s.keys = append(s.keys, k)
		s.byPath[k.Path] = k
	}
	s.root = s.grow("", t, nil)
	return s
}

// grow builds the branch for a struct type.
func (s *schema) grow(path string, t reflect.Type, index []int) *branch {
	b := &branch{path: path, index: index, typ: t, byName: map[string]*branch{}}
	s.fields(b, t, nil)
	return b
}

func (s *schema) fields(b *branch, t reflect.Type, at []int) {
	for i := 0; i < t.NumField(); i++ {
		f := t.Field(i)
		index := append(append([]int(nil), at...), i)
		if f.Anonymous {
			s.fields(b, f.Type, index)
			continue
		}
		name := f.Tag.Get("toml")
		path := name
		if b.path != "" {
			path = b.path + "." + name
		}
		k := s.grown(path, f.Type, index)
		if k == nil {
			continue // a field that this kind of file does not have
		}
		k.name = name
		b.kids = append(b.kids, k)
		b.byName[name] = k
	}
}

func (s *schema) grown(path string, t reflect.Type, index []int) *branch {
	isStruct := func(t reflect.Type) bool {
		return t.Kind() == reflect.Struct && t != reflect.TypeOf(time.Time{})
	}
	switch {
	case isStruct(t):
		return s.grow(path, t, index)
	case t.Kind() == reflect.Pointer && isStruct(t.Elem()):
		b := s.grow(path, t.Elem(), index)
		b.opt = true
		return b
	case t.Kind() == reflect.Slice && isStruct(t.Elem()):
		b := s.grow(path+".N", t.Elem(), index)
		b.list = true
		return b
	}
	key, ok := s.byPath[path]
	if !ok {
		return nil
	}
	return &branch{path: path, index: index, typ: t, key: key}
}

func (b *branch) leaf() bool { return b.key != nil }

// of is the branch's field in its parent struct v.
func (b *branch) of(v reflect.Value) reflect.Value { return v.FieldByIndex(b.index) }

// setDefaults fills a struct with the defaults of its leaves and plain tables.
func (b *branch) setDefaults(v reflect.Value) {
	for _, k := range b.kids {
		f := k.of(v)
		switch {
		case k.leaf():
			if k.key.def != nil {
				f.Set(reflect.ValueOf(k.key.def))
			} else {
				f.SetZero()
			}
		case !k.list && !k.opt:
			k.setDefaults(f)
		}
	}
}

// fresh is a new struct of the branch's type with its defaults.
func (b *branch) fresh() reflect.Value {
	v := reflect.New(b.typ).Elem()
	b.setDefaults(v)
	return v
}

func fresh[T any](name string) T {
	b := designSchema().root
	for _, p := range splitPath(name) {
		b = b.byName[p]
	}
	return b.fresh().Interface().(T)
}

// New is a design with every default. It has no rest, grain, yeast, honey or
// hop yet, so it is not valid until it gets a rest, a grain and a yeast.
func New() Design { return designSchema().root.fresh().Interface().(Design) }

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
