package file

import (
	"reflect"

	"skep/calc/design/internal/schema"
)

// step pairs an entry of the old list with one of the new: -1 for none.
type step struct{ old, new int }

// Costs of turning one list into another. Changing an entry is always dearer
// than keeping it and cheaper than removing it and adding another, so a removal
// never stands beside an addition.
const (
	costAddRemove = 20
	costChangeMin = 10
	costChangeMax = 2*costAddRemove - 1
	alignLimit    = 40_000 // pairs to weigh; beyond it entries pair up in order
)

// align finds the cheapest way from the old list to the new one. With whole, an
// entry is never changed, only kept, removed or added.
func align(b *schema.Branch, x, y reflect.Value, whole bool) []step {
	n, m := x.Len(), y.Len()
	var head, tail []step
	lo := 0
	for lo < n && lo < m && b.Same(x.Index(lo), y.Index(lo)) {
		head = append(head, step{lo, lo})
		lo++
	}
	for n > lo && m > lo && b.Same(x.Index(n-1), y.Index(m-1)) {
		n, m = n-1, m-1
		tail = append(tail, step{n, m})
	}
	mid := weigh(b, x, y, lo, n, m, whole)
	out := append(head, mid...)
	for i := len(tail) - 1; i >= 0; i-- {
		out = append(out, tail[i])
	}
	return out
}

func weigh(b *schema.Branch, x, y reflect.Value, lo, n, m int, whole bool) []step {
	change := func(i, j int) int {
		c := changeCost(b, x.Index(lo+i), y.Index(lo+j))
		if whole && c > 0 {
			c = 3 * costAddRemove
		}
		return c
	}
	rows, cols := n-lo, m-lo
	var out []step
	if rows*cols > alignLimit || rows == 0 || cols == 0 {
		for i := 0; i < max(rows, cols); i++ {
			s := step{lo + i, lo + i}
			if i >= rows {
				s.old = -1
			}
			if i >= cols {
				s.new = -1
			}
			out = append(out, s)
		}
		return out
	}
	cost := make([][]int, rows+1)
	for i := range cost {
		cost[i] = make([]int, cols+1)
	}
	for i := rows; i >= 0; i-- {
		for j := cols; j >= 0; j-- {
			switch {
			case i == rows:
				cost[i][j] = (cols - j) * costAddRemove
			case j == cols:
				cost[i][j] = (rows - i) * costAddRemove
			default:
				cost[i][j] = min(
					cost[i+1][j+1]+change(i, j),
					cost[i+1][j]+costAddRemove,
					cost[i][j+1]+costAddRemove)
			}
		}
	}
	for i, j := 0, 0; i < rows || j < cols; {
		switch {
		case i < rows && j < cols && cost[i][j] == cost[i+1][j+1]+change(i, j):
			out = append(out, step{lo + i, lo + j})
			i, j = i+1, j+1
		case i < rows && cost[i][j] == cost[i+1][j]+costAddRemove:
			out = append(out, step{lo + i, -1})
			i++
		default:
			out = append(out, step{-1, lo + j})
			j++
		}
	}
	return out
}

// changeCost is the cost of rewriting one entry into another.
func changeCost(b *schema.Branch, x, y reflect.Value) int {
	cost := 0
	for _, k := range b.Kids {
		if k.SameField(k.Of(x), k.Of(y)) {
			continue
		}
		if cost == 0 {
			cost = costChangeMin
		}
		cost += 3
		if k.Name == "name" {
			cost += 9
		}
	}
	return min(cost, costChangeMax)
}

// reordered puts the entries of the base into the order that they have in the
// target: the entries that both hold, known by being alike or by a name that
// only one bears, in the target's order; what only the base holds stays behind
// the entry it followed.
func reordered(b *schema.Branch, x, y reflect.Value) (out reflect.Value, moved bool) {
	n := x.Len()
	if n < 2 || n*y.Len() > alignLimit {
		return x, false
	}
	names := loneNames(b, x, y)
	taken := make([]bool, n)
	match := make([]int, y.Len())
	for pass := 0; pass < 2; pass++ {
		for j := range match {
			if pass == 0 {
				match[j] = -1
			}
			for i := 0; i < n && match[j] < 0; i++ {
				if !taken[i] && (pass == 0 && b.Same(x.Index(i), y.Index(j)) || pass == 1 && namesakes(b, x.Index(i), y.Index(j), names)) {
					match[j], taken[i] = i, true
				}
			}
		}
	}
	var order []int
	for _, i := range match {
		if i >= 0 {
			order = append(order, i)
		}
	}
	// Entries without a partner keep their place behind their neighbour.
	for i := 0; i < n; i++ {
		if taken[i] {
			continue
		}
		at := 0
		for p, o := range order {
			if o == i-1 {
				at = p + 1
			}
		}
		order = append(order[:at], append([]int{i}, order[at:]...)...)
	}
	out = reflect.MakeSlice(x.Type(), 0, n)
	for p, i := range order {
		moved = moved || p != i
		out = reflect.Append(out, x.Index(i))
	}
	return out, moved
}

// loneNames counts how many entries of two lists bear each name.
func loneNames(b *schema.Branch, x, y reflect.Value) map[string]int {
	k := b.ByName["name"]
	if k == nil {
		return nil
	}
	names := map[string]int{}
	for _, l := range []reflect.Value{x, y} {
		for e := 0; e < l.Len(); e++ {
			names[k.Of(l.Index(e)).String()]++
		}
	}
	return names
}

// namesakes tells whether two entries share a name that no other entry has.
func namesakes(b *schema.Branch, x, y reflect.Value, names map[string]int) bool {
	k := b.ByName["name"]
	if k == nil {
		return false
	}
	name := k.Of(x).String()
	return name != "" && name == k.Of(y).String() && names[name] == 2
}
