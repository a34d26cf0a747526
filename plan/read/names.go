package read

import (
	"strings"

	"spudgate/plan/doc"
)

// few is how many members are searched one by one before a map pays.
const few = 16

// names finds the members of one object by name while it is being read.
type names struct {
	index map[string]int
}

// find is the index of the member called key, or -1. Between two calls at most
// one member is added.
func (s *names) find(members []doc.Member, key string) int {
	if len(members) <= few {
		for i := range members {
			if members[i].Key == key {
				return i
			}
		}
		return -1
	}
	if s.index == nil {
		s.index = make(map[string]int, 2*few)
		for i := range members {
			s.index[members[i].Key] = i
		}
	}
	last := len(members) - 1
	s.index[members[last].Key] = last
	if i, ok := s.index[key]; ok {
		return i
	}
	return -1
}

// remarkCase says which names differ from an earlier one by case only: legal,
// and nearly always a slip. Two such names can't both be in lower case.
func (p *parser) remarkCase(n *doc.Node) {
	if !anyFolds(n.Members) {
		return
	}
	first := make(map[string]int, len(n.Members))
	for i, m := range n.Members {
		folded := strings.ToLower(m.Key)
		if j, ok := first[folded]; ok {
			other := n.Members[j]
			p.doc.Unread = append(p.doc.Unread, doc.Remark{
				Place: p.doc.Place(m.KeyRef),
				Text: "member " + doc.Quote(m.Key) + " differs only by case from " + doc.Quote(other.Key) +
					" at " + p.doc.Place(other.KeyRef).String(),
			})
			continue
		}
		first[folded] = i
	}
}

func anyFolds(members []doc.Member) bool {
	for _, m := range members {
		if strings.ToLower(m.Key) != m.Key {
			return true
		}
	}
	return false
}
