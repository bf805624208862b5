package convtest

import (
	"context"
	"fmt"

	"larderhand/curemath"
	"larderhand/store"
)

// opened makes a piece one of a cure that is no longer opened: what is in the store
// from before still has to be looked after.
func (d *desk) opened(args string) error {
	var (
		number int
		letter string
		ppm    float64
	)
	if _, err := fmt.Sscan(args, &number, &letter, &ppm); err != nil {
		return fmt.Errorf("opened N LETTER PPM: %w", err)
	}
	ctx := context.Background()
	return d.db.Update(ctx, d.clock.At, func(tx *store.Tx) error {
		ids, err := tx.RunningBatches(0, 100)
		if err != nil {
			return err
		}
		for _, id := range ids {
			b, err := tx.BatchByID(id)
			if err != nil {
				return err
			}
			for _, p := range b.Pieces {
				if b.Number == number && p.Letter == letter {
					share := ppm / float64(p.Ingoing)
					p.Ingoing *= curemath.PPM(share)
					p.MixWeight *= curemath.Grams(share)
					return tx.SavePiece(b.ID, p)
				}
			}
		}
		return fmt.Errorf("no piece %s in a batch %d", letter, number)
	})
}
