package jobfile

// Kinds are the words for springs that a job may hold.
func Kinds() (words []string) {
	for _, k := range kinds {
		words = append(words, k.word)
	}
	return words
}
