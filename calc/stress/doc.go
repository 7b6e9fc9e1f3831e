// Package stress says what may stop a yeast early or slow it down: alcohol near what
// it bears, beer colder or warmer than it likes, too few cells, too little nitrogen,
// too much sugar. Each cause comes with its value, its limit, the risk that it bites
// and what to do about it. Nothing here moves the middle of a prediction but where a
// strain cannot get to the strength at all.
//
// A strain's limits and the wort come in, risks from 0 to 1 go out. It must not know a
// design.
//
// # Risks
//
// Each is a normal distribution over the distance to a limit, whose middle and
// width are ours (no published rate of stuck fermentations was found); causes
// count as independent:
//
//	alcohol   Φ((strength - tolerance)/1.0 % vol)
//	cold      Φ((coldest - temperature - 2)/1.5 K)
//	heat      Φ((temperature - warmest - 4)/2 K): a risk to the taste, not of a stop; warmest
//	          28 °C where it is not known
//	pitch     Φ((log2(usual/given) - 2)/0.8), cells per mL and °P
//	nitrogen  Φ(ln(0.85 need/FAN)/0.25)
//	gravity   Φ((original extract - 26)/2.5 °P)
//
// Evidence: brewing yeast well fed and given sterols reached 16.2 % vol, so the
// usual 7 to 9 % is hunger and not alcohol (Casey, Magnus & Ingledew, Appl.
// Environ. Microbiol. 48:639, 1984): a well-fed, well-pitched 9 % beer is not
// stressed. Unfed worts above 18 % solids stick (the same). Worts of 16 to 20 °P
// ferment normally where the pitch rises with the gravity (Fernández et al.,
// MBAA TQ 22, 1985). Trouble from half of the usual pitch down, strength above
// 1.090 and the temperatures of the families: common practice, no source.
//
// # Nitrogen
//
// Usable nitrogen (FAN), mg/L = 17 P + 0.03 H + 212 N: P the °P that comes from
// malt (12.5 to 21.5 a °P: Fix 1999 against other books), H honey in g/L (10 to 50
// mg/kg, from its amino acids less their proline), N diammonium phosphate in g/L
// (21.2 % nitrogen, atomic masses). A wort of 12 °P needs 130 mg/L at least, 170
// for a quick and full attenuation (after Stewart); other strengths in proportion
// (ours). Under 170 the rate falls with the root of the share (ours: 0.5 to 1, no
// slope was found).
//
// # Oxygen
//
// 8 to 10 mg/L, or one for each °P (trade). Splashing and shaking gives 4 to 8, a
// small air pump with a stone 8 in five minutes, pure oxygen and a stone 12 (0 to
// 26) in a minute (makers of yeast, quoted). What a wort holds is not asked for:
// the measured courses behind package ferment stood at 0.3 to 2 mg/L and began
// late, and the lag's band covers both.
package stress
