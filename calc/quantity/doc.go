// Package quantity has the one list of what is measured and in which unit
// ([Kind]), and is the only place where Skep turns numbers into text for a
// person and a person's text into numbers. In come metric numbers or what a
// person typed, with the units they chose ([Units]); out go texts and metric
// numbers. It must know neither a toolkit nor a file: what translates its words
// is handed in.
//
// Inside Skep every quantity is metric and its unit stands in its name; what a
// person sees and types is in the units they chose. A [Quantity] is a number
// with what it measures, for sentences and sheets.
//
// A [Formatter] shows no more digits than the quantity deserves; a [Parser]
// takes what people type ("151F", "66,5", "12 °P", "1 lb 3 oz", "1h 30m",
// "73-78"), says how it read it, and refuses anything else with the reason.
package quantity
