package store

import "time"

// Recipe is one version of a way of curing that a person keeps.
type Recipe struct {
	ID        int64
	Lane      string // the platform its owner is on
	Owner     string // the platform's own id for them
	OwnerName string
	Name      string
	Fold      string // the name in lower case; what it is found by
	Version   int
	Body      string // JSON of what it says
	At        time.Time
}

// SaveRecipe keeps a recipe as the next version of its owner's of that name.
func (t *Tx) SaveRecipe(r Recipe) (Recipe, error) {
	r.At = t.now
	err := t.one(`INSERT INTO recipe (lane, owner, owner_name, name, fold, version, body, at)
		VALUES (?1, ?2, ?3, ?4, ?5, 1 + coalesce((SELECT max(version) FROM recipe WHERE lane = ?1 AND owner = ?2 AND fold = ?5), 0), ?6, ?7)
		RETURNING id, version`,
		[]any{r.Lane, r.Owner, r.OwnerName, r.Name, r.Fold, r.Body, toMillis(r.At)}, &r.ID, &r.Version)
	return r, err
}

const recipeColumns = "SELECT r.id, r.lane, r.owner, r.owner_name, r.name, r.fold, r.version, r.body, r.at FROM recipe r "

// Recipes lists all versions of a person's recipes, by name and version.
func (t *Tx) Recipes(lane, owner string) ([]Recipe, error) {
	return t.recipes("WHERE r.lane = ? AND r.owner = ? ORDER BY r.fold, r.version", lane, owner)
}

// RecipesIn lists the newest versions of the recipes shared in a conversation.
func (t *Tx) RecipesIn(conversation int64, lane string) ([]Recipe, error) {
	return t.recipes(`JOIN recipe_share s ON s.owner = r.owner AND s.fold = r.fold
		WHERE s.conversation_id = ? AND r.lane = ?
		AND r.version = (SELECT max(version) FROM recipe v WHERE v.lane = r.lane AND v.owner = r.owner AND v.fold = r.fold)
		ORDER BY r.fold, r.owner_name`, conversation, lane)
}

func (t *Tx) recipes(where string, args ...any) ([]Recipe, error) {
	return gather(t, func(r *Recipe) []any {
		return []any{&r.ID, &r.Lane, &r.Owner, &r.OwnerName, &r.Name, &r.Fold, &r.Version, &r.Body, instant(&r.At)}
	}, recipeColumns+where, args...)
}

// RecipeByCode finds the newest version of a recipe by the code it was shared under on
// a platform, or ErrNotFound.
func (t *Tx) RecipeByCode(code, lane string) (Recipe, error) {
	return first(t.recipes(`JOIN recipe_share s ON s.owner = r.owner AND s.fold = r.fold
		WHERE s.code = ?1 AND s.code <> '' AND r.lane = ?2 AND ?2 = (SELECT `+laneOf+` FROM conversation WHERE id = s.conversation_id)
		ORDER BY r.version DESC LIMIT 1`, code, lane))
}

// ShareRecipe lets everyone in a conversation take a recipe, and whoever has the code
// it returns: the one given, or that of an earlier time.
func (t *Tx) ShareRecipe(conversation int64, r Recipe, code string) (string, error) {
	err := t.one(`INSERT INTO recipe_share (conversation_id, owner, fold, code, at) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT DO UPDATE SET code = iif(code = '', excluded.code, code) RETURNING code`,
		[]any{conversation, r.Owner, r.Fold, code, toMillis(t.now)}, &code)
	return code, err
}

// UnshareRecipe takes a recipe back from a conversation. What was taken stays.
func (t *Tx) UnshareRecipe(conversation int64, r Recipe) error {
	_, err := t.exec("DELETE FROM recipe_share WHERE conversation_id = ? AND owner = ? AND fold = ?", conversation, r.Owner, r.Fold)
	return err
}

const recipeShares = "SELECT c.id FROM recipe_share s JOIN conversation c ON c.id = s.conversation_id WHERE s.owner = ? AND s.fold = ? AND " + laneOf + " = ?"

// RecipeShares lists the conversations a recipe is shared in.
func (t *Tx) RecipeShares(r Recipe) ([]Conversation, error) {
	return t.conversations("id IN ("+recipeShares+") ORDER BY id", r.Owner, r.Fold, r.Lane)
}
