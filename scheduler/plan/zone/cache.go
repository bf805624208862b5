package zone

import (
	"sync"
	"time"
)

// Cache keeps loaded zones, since time.LoadLocation reads and parses its data on
// every call. It takes stored names only, exactly as Find gave them, so it never
// holds more zones than there are. The zero Cache is ready, and safe for use by
// several goroutines.
type Cache struct{ loaded sync.Map }

// Location gives the zone of a stored name. A name that is not in the IANA
// database is an *Error of kind Unknown, one without data of kind Missing.
func (c *Cache) Location(name string) (*time.Location, error) {
	if loc, ok := c.loaded.Load(name); ok {
		return loc.(*time.Location), nil
	}
	if load().byName[name] == nil {
		return nil, &Error{Kind: Unknown, Said: name}
	}
	loc, err := time.LoadLocation(name)
	if err != nil {
		return nil, &Error{Kind: Missing, Said: name, cause: err}
	}
	kept, _ := c.loaded.LoadOrStore(name, loc)
	return kept.(*time.Location), nil
}

// Forget drops what is loaded, so that each zone is read anew when it is next asked
// for: its rules may have changed.
func (c *Cache) Forget() { c.loaded.Clear() }
