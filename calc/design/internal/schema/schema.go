// Package schema ties each key of a file to a field of a Go struct: what kind of
// value it holds, its unit, range, default and words, and how a value is read,
// judged, compared and written as text. It knows no particular struct: package
// design hands in its types and its table of keys.
package schema

import (
	"reflect"
	"time"
)

// Branch is one place of the schema, tied to a field of a Go struct: a leaf
// holding a value, a table, or a list of tables.
type Branch struct {
	Name   string
	Path   string // with N for positions
	Index  []int  // of the field in the parent struct
	Type   reflect.Type
	Key    *Key // of a leaf
	List   bool // []struct
	Opt    bool // *struct: absent unless said
	Kids   []*Branch
	ByName map[string]*Branch
}

// Schema is a whole file: its tree, and its keys in their order and by path.
type Schema struct {
	Root   *Branch
	Keys   []*Key
	ByPath map[string]*Key
}

// New builds the schema of a struct type from the keys that its files may hold.
func New(t reflect.Type, keys []Key) *Schema {
	s := &Schema{ByPath: make(map[string]*Key, len(keys))}
	for i := range keys {
		k := &keys[i]
		k.finish()
		s.Keys = append(s.Keys, k)
		s.ByPath[k.Path] = k
	}
	s.Root = s.grow("", t, nil)
	return s
}

// grow builds the branch for a struct type.
func (s *Schema) grow(path string, t reflect.Type, index []int) *Branch {
	b := &Branch{Path: path, Index: index, Type: t, ByName: map[string]*Branch{}}
	s.fields(b, t, nil)
	return b
}

func (s *Schema) fields(b *Branch, t reflect.Type, at []int) {
	for i := 0; i < t.NumField(); i++ {
		f := t.Field(i)
		index := append(append([]int(nil), at...), i)
		if f.Anonymous {
			s.fields(b, f.Type, index)
			continue
		}
		name := f.Tag.Get("toml")
		path := name
		if b.Path != "" {
			path = b.Path + "." + name
		}
		k := s.grown(path, f.Type, index)
		if k == nil {
			continue // a field that this kind of file does not have
		}
		k.Name = name
		b.Kids = append(b.Kids, k)
		b.ByName[name] = k
	}
}

func (s *Schema) grown(path string, t reflect.Type, index []int) *Branch {
	isStruct := func(t reflect.Type) bool {
		return t.Kind() == reflect.Struct && t != reflect.TypeOf(time.Time{})
	}
	switch {
	case isStruct(t):
		return s.grow(path, t, index)
	case t.Kind() == reflect.Pointer && isStruct(t.Elem()):
		b := s.grow(path, t.Elem(), index)
		b.Opt = true
		return b
	case t.Kind() == reflect.Slice && isStruct(t.Elem()):
		b := s.grow(path+".N", t.Elem(), index)
		b.List = true
		return b
	}
	key, ok := s.ByPath[path]
	if !ok {
		return nil
	}
	return &Branch{Path: path, Index: index, Type: t, Key: key}
}

func (b *Branch) Leaf() bool { return b.Key != nil }

// Of is the branch's field in its parent struct v.
func (b *Branch) Of(v reflect.Value) reflect.Value { return v.FieldByIndex(b.Index) }

// SetDefaults fills a struct with the defaults of its leaves and plain tables.
func (b *Branch) SetDefaults(v reflect.Value) {
	for _, k := range b.Kids {
		f := k.Of(v)
		switch {
		case k.Leaf():
			if k.Key.Def != nil {
				f.Set(reflect.ValueOf(k.Key.Def))
			} else {
				f.SetZero()
			}
		case !k.List && !k.Opt:
			k.SetDefaults(f)
		}
	}
}

// Fresh is a new struct of the branch's type with its defaults.
func (b *Branch) Fresh() reflect.Value {
	v := reflect.New(b.Type).Elem()
	b.SetDefaults(v)
	return v
}
