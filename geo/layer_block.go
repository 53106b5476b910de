package geo

// blockLength is how many elements a block has room for: enough that there are few.
const blockLength = 4096

// block is room for short slices that are kept as long as one another: the collector is
// done sooner with a few large pieces of memory than with many small ones.
type block[T any] []T

// hold returns a copy of a slice that shares its memory with others.
func (b *block[T]) hold(some []T) []T {
	n := len(*b)
	if cap(*b)-n < len(some) {
		*b, n = make([]T, 0, max(blockLength, len(some))), 0
	}
	*b = append(*b, some...)
	return (*b)[n:len(*b):len(*b)]
}
