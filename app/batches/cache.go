package batches

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"path/filepath"
	"sync"

	"github.com/adrg/xdg"

	"skep/app/savefile"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
)

// Cache keeps what was worked out of each file by its content. It may be used
// by several openings at once; nil works, and keeps nothing.
type Cache struct {
	lock   sync.Mutex
	known  map[[32]byte]Entry
	stored map[string]Predicted // from an earlier session, by the content's hash
}

// NewCache makes an empty one.
func NewCache() *Cache { return &Cache{known: map[[32]byte]Entry{}} }

// CachePath is where the predictions are kept from session to session.
func CachePath() string { return filepath.Join(xdg.CacheHome, "skep", "ledger.json") }

func (c *Cache) get(key [32]byte) (Entry, bool) {
	if c == nil {
		return Entry{}, false
	}
	c.lock.Lock()
	defer c.lock.Unlock()
	e, ok := c.known[key]
	return e, ok
}

func (c *Cache) foretold(key [32]byte) (Predicted, bool) {
	if c == nil {
		return Predicted{}, false
	}
	c.lock.Lock()
	defer c.lock.Unlock()
	p, ok := c.stored[hex.EncodeToString(key[:])]
	return p, ok
}

// keep replaces everything by what the folder holds now, so that it does not
// grow for ever.
func (c *Cache) keep(entries []Entry) {
	if c == nil {
		return
	}
	known := make(map[[32]byte]Entry, len(entries))
	for _, e := range entries {
		known[e.key] = e
	}
	c.lock.Lock()
	defer c.lock.Unlock()
	c.known = known
}

// stored is the cache's file.
type stored struct {
	Engine      string // what the engine was that predicted
	Predictions map[string]Predicted
}

// engineMark is a hash of what the engine says of our own designs: another
// engine gives another mark, and what an older one predicted is not shown.
var engineMark = sync.OnceValue(func() string {
	var all []byte
	engine := calc.NewEngine()
	for _, name := range assets.Demos() {
		src, err := assets.Demo(name)
		if err != nil {
			return ""
		}
		doc, findings := file.Parse(name, src)
		if design.HasErrors(findings) {
			return ""
		}
		p, err := engine.Predict(doc.Design)
		if err != nil {
			return ""
		}
		all = fmt.Append(all, p)
	}
	h := sha256.Sum256(all)
	return hex.EncodeToString(h[:])
})

// mostStored bounds the kept predictions: a thousand batches take two megabytes.
const mostStored = 64 << 20

// Load takes what an earlier session predicted; what can't be read, or is of
// another engine, is as if it were not there: it can be worked out again.
func (c *Cache) Load(path string) {
	src, err := savefile.ReadAtMost(path, mostStored)
	var s stored
	if err != nil || json.Unmarshal(src, &s) != nil || s.Engine == "" || s.Engine != engineMark() {
		return
	}
	c.lock.Lock()
	defer c.lock.Unlock()
	c.stored = s.Predictions
}

// Save keeps the predictions for the next session.
func (c *Cache) Save(path string) error {
	c.lock.Lock()
	s := stored{Engine: engineMark(), Predictions: map[string]Predicted{}}
	for key, e := range c.known {
		if e.Unpredicted == nil {
			s.Predictions[hex.EncodeToString(key[:])] = e.Predicted
		}
	}
	c.lock.Unlock()
	src, err := json.Marshal(s)
	if err != nil {
		return err
	}
	if err := savefile.MakeFolder(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return savefile.Write(path, src)
}
