// Package taste turns what is left in the beer into sweetness, dryness and body, and
// the words for them.
//
// Residue, alcohol and attenuation come in; indices and their words go out. It must
// not know how the beer came about.
//
// Units: residue in g/L by kind ([skep/calc/sugar.Spectrum]); sweetness in g/L
// sucrose equivalents; attenuation as RDF (ASBC) in % on the effective original
// extract; alcohol in % by volume; indices 0 to 100.
//
// Sources of the sweetness weights: Biester and Wood; Sale and Skinner; Paul;
// PMC10346066 (ranges as read there). Taste threshold of sucrose in water
// 3.4 g/L. Of the body scale: Ragot 1989 (dextrin alone is felt from 50 g/L;
// ordinary beers hold 10 to 40); Krebs 2021 (palate fullness of 41 lagers goes
// with original gravity, nitrogen, macromolecules). The two indices are ours:
// tasters differ, and no published scale gives them from an analysis.
//
// # Why these weights
//
// The trade says that honey dries, that a hotter mash fills and sweetens a
// little, and that a less attenuating yeast sweetens more than it fills.
// Neither of the simple scales says all three. Absence of sweetness alone fails
// the first: honey takes nothing away, it leaves a trace more. Attenuation
// alone can't tell the second from the third, and is body upside down. So
// dryness is a mean of both, 0.45 by attenuation and 0.55 by sweetness.
//
// At an ordinary 12 °P ale, for the same 9 % of the extract left unfermented:
//
//   - by the mash (dextrin): sweetness +1.1 g/L, a third of the taste
//     threshold; dryness -15; body +10;
//   - by the yeast (maltotriose): sweetness +2.8 g/L; dryness -21; body +4.
//
// So the two point in different directions on the plane of dryness and body (33
// against 10 degrees from "sweeter" towards "fuller"), and the orderings named above
// hold with the starting weights; they hold as well with anything from 0.2 to
// 0.6 by attenuation (tested). Nothing was found in the record that would
// choose within that range: the weights stay as they started, and a brewer's
// own ledger of tasted beers is what should move them.
//
// The share by attenuation must not fall near nothing, or honey would no
// longer dry; and not near one, or mash and yeast would be one number.
//
// Protein and other extract that is no sugar counts fully in body, as dextrin
// does: fullness goes with nitrogen (Krebs). Sugars count 0.4, and so does what
// honey leaves. Viscosity, bitterness, carbonation and acid are left out; they
// shift what is perceived and are shown on their own.
//
// # Alcohol and honey
//
// A hundred drinkers rated one lager fuller at 2.8 than at 0.05 % and fuller at
// 4.5 than at 2.8 % (Ivanova et al., Food Qual. Prefer. 2023, 105004, abstract
// read), and they fell into three kinds: so alcohol fills, some 1.6 to 1.9 g/L of
// dextrin for each % within that range, less and less beyond it, and from one
// drinker to the next between hardly and twice as much. How much it fills, and
// how it levels off, is ours: the abstract gives orders, no sizes. Ethanol also
// enhances sweetness (Clark et al., Chemosens. Percept. 4:42, 2011, abstract
// read); for want of sizes no sweetness is added for it, so that it is never
// less for the same residue.
//
// Honey therefore does two things that oppose. On top of the same malt it thins
// by diluting a little and fills by its alcohol: the beer becomes a little
// fuller, whatever its gravity falls to, for those who feel alcohol. In place of
// malt it takes dextrin and protein away, three times what its alcohol gives
// back: the beer becomes thinner.
package taste
