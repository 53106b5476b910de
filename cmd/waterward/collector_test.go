package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What may lie unused: 200 MiB, or half of what is in use, whichever is more.
func TestRoom(t *testing.T) {
	require.Equal(t, 5000, room(0), "of the least that counts, 4 MiB")
	require.Equal(t, 200, room(100<<20))
	require.Equal(t, 50, room(400<<20))
	require.Equal(t, 50, room(4<<30))
}
