// Package keeping holds the published rows on closing beer into bottles, on what
// happens to it afterwards, and on tasting two of them, beside what packages
// packaging and coldside compute.
package keeping
