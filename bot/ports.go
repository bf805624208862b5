package bot

import (
	"context"
	"time"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Ledger opens transactions. What fn did in Update is kept whole if fn returns
// nil and not at all otherwise; View changes nothing. Neither may be called
// inside the other.
type Ledger interface {
	Update(ctx context.Context, now time.Time, fn func(Tx) error) error
	View(ctx context.Context, now time.Time, fn func(Tx) error) error
}

// Tx is what a transaction can do, by what it is about. A record that is not
// there is store.ErrNotFound everywhere.
type Tx interface {
	Now() time.Time
	Conversations
	People
	Batches
	Places
	Journal
	Chores
	Events
	Cookbook
	Album
	Cards
	Audience
	Cupboard
	Agenda
}

// Conversations finds and keeps chats and their settings.
type Conversations interface {
	Conversation(store.Address) (store.Conversation, error)
	ConversationByID(int64) (store.Conversation, error)
	SaveConversation(store.Conversation) (store.Conversation, error)
	Unpark(conversation int64) error
}

// People finds and keeps who takes part, and the cure each has worked out last.
type People interface {
	Member(conversation int64, key, name string) (store.Member, error)
	FindMember(conversation int64, key string) (store.Member, error)
	MemberByID(int64) (store.Member, error)
	Members(conversation int64) ([]store.Member, error)
	Confirm(member int64) error
	Draft(member int64) (body string, at time.Time, err error)
	SaveDraft(member int64, body string) error
}

// Batches finds and keeps batches.
type Batches interface {
	CreateBatch(store.Batch) (store.Batch, error)
	SaveBatch(store.Batch) error
	Batch(conversation int64, number int) (store.Batch, error)
	BatchByID(int64) (store.Batch, error)
	Batches(conversation int64, all bool) ([]store.Batch, error)
	RunningBatches(after int64, limit int) ([]int64, error)
	Folders(ids []int64) ([]store.Folder, error)
}

// Places finds and keeps the places some batches have of their own.
type Places interface {
	Place(batch int64) (store.Address, error)
	PlacedAt(store.Address) (store.Batch, error)
	SetPlace(batch int64, a store.Address) error
}

// Journal writes what happened to a batch. Nothing is ever deleted; Strike makes
// an entry count no more.
type Journal interface {
	Append(store.Entry) (store.Entry, error)
	Strike(entry, member int64) error
	Unstrike(batch, entry int64) error
	Entries(batch int64) ([]store.Entry, error)
}

// Chores plans what is to be said unasked and records that it was.
type Chores interface {
	Reconcile(conversation, batch int64, have []store.Chore, wants []store.Want) error
	Chores(batch int64) ([]store.Chore, error)
	MarkSent(store.Chore) error
	MarkDropped(store.Chore) error
	MarkGivenUp(store.Chore) error
}

// Events remembers what was answered to an event, so that one delivered twice is
// done once and answered alike.
type Events interface {
	Remember(event, reply string) error
	Recall(event string) (string, error)
}

// Cookbook keeps people's recipes and where others may take them.
type Cookbook interface {
	SaveRecipe(store.Recipe) (store.Recipe, error)
	Recipes(lane, owner string) ([]store.Recipe, error)
	RecipesIn(conversation int64, lane string) ([]store.Recipe, error)
	RecipeByCode(code, lane string) (store.Recipe, error)
	ShareRecipe(conversation int64, r store.Recipe, code string) (string, error)
	UnshareRecipe(conversation int64, r store.Recipe) error
	RecipeShares(r store.Recipe) ([]store.Conversation, error)
}

// Cards keeps the batches shown in conversations and has them brought up to date.
type Cards interface {
	AddCard(store.Card) (store.Card, error)
	SaveCard(store.Card) error
	OwnCards(batch int64, owner, name string) error
	Card(int64) (store.Card, error)
	CardByCode(code, lane string) (store.Card, error)
	CardsOf(batch int64) ([]store.Card, error)
	CardsIn(conversation int64) ([]store.Card, error)
	TouchCard(c store.Card, kind string) error
}

// Audience keeps who follows a card and who cheered, and where a person can share.
type Audience interface {
	Speak(card int64, kind string, v store.Voice, on bool) (changed bool, err error)
	Voices(card int64, kind string) ([]store.Voice, error)
	ConversationsOf(lane, key string) ([]store.Conversation, error)
}

// Cupboard keeps what people counted and bought.
type Cupboard interface {
	AddStock(store.Stocked) error
	Stock(member int64) ([]store.Stocked, error)
}

// Agenda keeps planned batches and plants what reminds of them.
type Agenda interface {
	AddPlan(store.Planned) (store.Planned, error)
	DropPlan(int64) error
	Plan(int64) (store.Planned, error)
	Plans(member int64, from string) ([]store.Planned, error)
	Enqueue(conversation int64, kind, slot, body string, due time.Time, urgency int) error
}

// Album keeps the pictures that came with journal entries.
type Album interface {
	SavePicture(store.Picture) error
	Pictures(batch int64, most int) (newest []store.Picture, all int, err error)
}

// Sender delivers one reply to one address under a key. It may be called again
// with the same key after a crash or when it is unknown whether the reply
// arrived, and passes the key on where the platform can use it to say a thing
// once. A failure is a *store.Failure, whose kind says whether to wait, follow,
// stop or try again; the sender never retries by itself, never ends the process
// and never shows a secret in an error.
//
// The ref it gives back names the message on the platform, so that Edit can change
// it later; it is empty where messages cannot be changed.
type Sender interface {
	Send(ctx context.Context, to store.Address, key string, r reply.Reply) (ref string, err error)
}

// Editor changes a message sent before. Changing it to what it is already is no
// failure. A message that is gone is a *store.Failure of kind store.Refused.
type Editor interface {
	Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error
}

// Roll asks a platform whether somebody is in a group now, so that who was shown out of
// one puts nothing up there. key is the platform's own id for them. An error means that
// it is not known. It is asked while no transaction is open.
type Roll interface {
	Inside(ctx context.Context, group store.Address, key string) (bool, error)
}

// Clock tells the time.
type Clock interface {
	Now() time.Time
}
