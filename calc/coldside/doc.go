// Package coldside is what happens to beer after its fermentation, and what its label
// has to name: sugar freed by hops added cold ([Creep]), pasteurising
// ([PasteurisationUnits], [Spores]), sulphite, cereals and tainted honey on the label.
//
// Amounts, times and temperatures of the finished beer come in; what becomes of them
// goes out. It must not know how the beer was made.
//
// Units: g/L and mg/L of beer, minutes, days, °C, °P; pasteurisation units are
// minutes at 60 °C.
//
// Nothing here is a permission: preservatives and labels are under local law, and
// beer that ferments again in glass bursts it.
package coldside
