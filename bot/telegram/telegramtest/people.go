package telegramtest

// User is a person, or a bot.
type User struct {
	ID        int64
	FirstName string
	LastName  string
	Username  string // without the @
	Language  string // language_code of the person's app
	IsBot     bool
}

// name is how the person shows in a chat.
func (u *User) name() string {
	if u.LastName != "" {
		return u.FirstName + " " + u.LastName
	}
	return u.FirstName
}

// Accounts of the platform itself that stand in for a sender who is no person;
// identifiers from memory.
const (
	anonymousAdminID = 1087968824 // GroupAnonymousBot
	channelSenderID  = 136817688  // Channel_Bot
	platformID       = 777000     // forwards a channel's posts to its group
)

// people holds everyone and every chat.
type people struct {
	users      map[int64]*User
	chats      map[int64]*chat
	nextUser   int64
	nextGroup  int64
	nextSuper  int64
	nextShared int // message ids are shared by private chats and basic groups

	anonymous, channelVoice, platform *User
}

func newPeople() people {
	p := people{
		users:    map[int64]*User{},
		chats:    map[int64]*chat{},
		nextUser: 5_000_000_000, // past 32 bits, as real identifiers are
		// A supergroup's identifier needs more than 32 bits too.
		nextGroup: 4_000, nextSuper: 1_000_000_000_000 + 2_000_000_000,
	}
	p.anonymous = p.add(User{ID: anonymousAdminID, FirstName: "Group", Username: "GroupAnonymousBot", IsBot: true})
	p.channelVoice = p.add(User{ID: channelSenderID, FirstName: "Channel", Username: "Channel_Bot", IsBot: true})
	p.platform = p.add(User{ID: platformID, FirstName: "Telegram"})
	return p
}

func (p *people) add(u User) *User {
	if u.ID == 0 {
		p.nextUser++
		u.ID = p.nextUser
	}
	p.users[u.ID] = &u
	return &u
}

// User adds a person by first name.
func (s *Server) User(firstName string) *User { return s.Person(User{FirstName: firstName}) }

// Person adds a person. An ID of 0 gets one.
func (s *Server) Person(u User) *User {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.people.add(u)
}
