package schema

import (
	"bytes"
	"errors"
	"io"
	"net/url"
	"sort"
	"strconv"
	"strings"
	"sync"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"spudgate/plan/doc"
)

// leaf is one thing the schema refuses.
type leaf struct {
	node    *doc.Node
	message string
}

// compiled is the plan's schema, made ready when first needed: a good plan
// never needs it.
var compiled = sync.OnceValues(func() (*jsonschema.Schema, error) {
	text, _ := Text("plan")
	return compile(text)
})

// compile makes a schema ready that stands on its own: it may refer to nothing
// outside.
func compile(text []byte) (*jsonschema.Schema, error) {
	const address = "mem:///plan"
	c := jsonschema.NewCompiler()
	c.AssertFormat = true
	c.LoadURL = func(string) (io.ReadCloser, error) {
		return nil, errors.New("a schema refers to nothing outside itself")
	}
	if err := c.AddResource(address, bytes.NewReader(text)); err != nil {
		return nil, err
	}
	return c.Compile(address)
}

// judge puts a tree before the schema and gives what that refuses, in an order
// that is always the same.
func judge(root *doc.Node) []leaf {
	s, err := compiled()
	if err == nil {
		err = s.Validate(generic(root))
	}
	var refused *jsonschema.ValidationError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &refused):
		return leaves(root, refused)
	}
	return []leaf{{root, err.Error()}}
}

// leaves flattens the tree of errors. Only its leaves say something, and their
// order is that of a map.
func leaves(root *doc.Node, e *jsonschema.ValidationError) []leaf {
	var all []leaf
	var collect func(*jsonschema.ValidationError)
	collect = func(e *jsonschema.ValidationError) {
		if len(e.Causes) == 0 {
			all = append(all, leaf{find(root, e.InstanceLocation), e.Message})
		}
		for _, c := range e.Causes {
			collect(c)
		}
	}
	collect(e)
	sort.Slice(all, func(i, j int) bool {
		if all[i].node != all[j].node {
			return all[i].node.Ref < all[j].node.Ref
		}
		return all[i].message < all[j].message
	})
	return all
}

// find is the node an instance location names. The library escapes its tokens
// twice: as a JSON pointer (RFC 6901) and, around that, as part of a URL.
func find(root *doc.Node, location string) *doc.Node {
	n := root
	for _, token := range strings.Split(location, "/")[1:] {
		if plain, err := url.PathUnescape(token); err == nil {
			token = plain
		}
		token = strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~")
		next := n.Get(token)
		if i, err := strconv.Atoi(token); n.Kind == doc.Array && err == nil && i >= 0 && i < len(n.Items) {
			next = n.Items[i]
		}
		if next == nil {
			return n
		}
		n = next
	}
	return n
}

// generic is the tree as the library takes it.
func generic(n *doc.Node) any {
	switch n.Kind {
	case doc.Bool:
		return n.Bool
	case doc.Number:
		return n.Num
	case doc.String:
		return n.Text
	case doc.Array:
		list := make([]any, len(n.Items))
		for i, item := range n.Items {
			list[i] = generic(item)
		}
		return list
	case doc.Object:
		object := make(map[string]any, len(n.Members))
		for _, m := range n.Members {
			object[m.Key] = generic(m.Value)
		}
		return object
	}
	return nil
}
