// Package reckon holds the small calculations brewers do all day, each on its own:
// numbers in, numbers out, units in the names.
//
// Texts by key come in, named results with their units go out. It must not know a
// design.
//
// [List] says what there is, what each takes and where it comes from; [Do] runs
// one. A name or a key that is not known, or one that is missing, is a
// [UsageError]: the command line is wrong. A value that cannot be, or lies
// outside the range of the source, is an [InputError] that names key, value,
// range and reason. No result is ever NaN or infinite.
//
// The formulas live in the packages by physics (density, alcohol, honey, water,
// boil, colour, carbonation); this package only asks them.
package reckon
