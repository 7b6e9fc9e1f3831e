package main

// supportCode is package mutant, which exists only while a mutant is compiled.
const supportCode = `package mutant

import ("math"; "os"; "strconv"; "sync")

const record = RECORD

var awake, _ = strconv.Atoi(os.Getenv("MUTANT"))

var (
	seen sync.Map
	to   = sync.OnceValue(func() *os.File {
		f, err := os.OpenFile(os.Getenv("MUTANT_REACHED"), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o666)
		if err != nil { panic(err) }
		return f
	})
)

func reach(k int) {
	if _, old := seen.LoadOrStore(k, true); !old { to().WriteString(strconv.Itoa(k) + "\n") }
}

func on(k int) bool {
	if record { reach(k) }
	return awake == k
}

type whole interface { ~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~uintptr }
type number interface { whole | ~float32 | ~float64 }
type ordered interface { number | ~string }

func Add[T number](k int, a, b T) T { if on(k) { return a - b }; return a + b }
func Sub[T number](k int, a, b T) T { if on(k) { return a + b }; return a - b }
func Mul[T number](k int, a, b T) T { if on(k) { return a / b }; return a * b }
func Div[T number](k int, a, b T) T { if on(k) { return a * b }; return a / b }
func Rem[T whole](k int, a, b T) T { if on(k) { return a * b }; return a % b }
func Minus[T number](k int, a T) T { if on(k) { return a }; return -a }
func Opposite[T number](k int, a T) T { if on(k) { return -a }; return a }
func Inverse[T ~float32 | ~float64](k int, a T) T { if on(k) { return 1 / a }; return a }
func Not(k int, a bool) bool { return a != on(k) }
func And(k int, a bool, b func() bool) bool { if on(k) { return a || b() }; return a && b() }
func Or(k int, a bool, b func() bool) bool { if on(k) { return a && b() }; return a || b() }
func Less[T ordered](e, n int, a, b T) bool { if on(e) { return a <= b }; if on(n) { return a >= b }; return a < b }
func AtMost[T ordered](e, n int, a, b T) bool { if on(e) { return a < b }; if on(n) { return a > b }; return a <= b }
func More[T ordered](e, n int, a, b T) bool { if on(e) { return a >= b }; if on(n) { return a <= b }; return a > b }
func AtLeast[T ordered](e, n int, a, b T) bool { if on(e) { return a > b }; if on(n) { return a < b }; return a >= b }

func Min[T number](k int, a ...T) T { return extreme(on(k), a) }
func Max[T number](k int, a ...T) T { return extreme(!on(k), a) }

func extreme[T number](most bool, a []T) T {
	v := a[0]
	for _, x := range a[1:] {
		switch f, ok := any(v).(float64); {
		case ok && most: v = any(math.Max(f, any(x).(float64))).(T)
		case ok: v = any(math.Min(f, any(x).(float64))).(T)
		case most: v = max(v, x)
		default: v = min(v, x)
		}
	}
	return v
}
`
