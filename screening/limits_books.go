package screening

import "waterward/rules"

// limitsRecord says how many limits there are and how many of them rest on text
// that nobody has read.
type limitsRecord struct {
	Used   int `json:"used"`
	Unread int `json:"resting_on_unread_text"`
}

func limitsOf(b *rules.Book) limitsRecord {
	all, unread := b.Limits()
	return limitsRecord{all, unread}
}
