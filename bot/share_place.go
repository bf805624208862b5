package bot

// The named settings that say what kind of place a conversation is.
const (
	directSetting = "direct" // "yes" in a private chat
	titleSetting  = "title"  // what a group or a topic of it calls itself
	serverSetting = "server" // what the server, or the group with topics, calls itself that it is in
)

// learnPlace takes up whether a conversation is private and what it calls itself,
// so that someone can share into it from elsewhere.
func (t *Turn) learnPlace() error {
	if t.Msg.here != 0 { // said in a batch's own place, which is not the conversation
		return nil
	}
	direct, title, server := "", clip(t.Msg.Title, 64), clip(t.Msg.Server, 64)
	if t.Msg.Direct {
		direct = "yes"
	}
	named := t.Conv.Settings.Named
	if title == "" {
		title = named[titleSetting]
		if server == "" {
			server = named[serverSetting]
		}
	}
	if named[directSetting] == direct && named[titleSetting] == title && named[serverSetting] == server {
		return nil
	}
	t.name(directSetting, direct)
	t.name(titleSetting, title)
	t.name(serverSetting, server)
	conv, err := t.Tx.SaveConversation(t.Conv)
	t.Conv = conv
	return err
}
