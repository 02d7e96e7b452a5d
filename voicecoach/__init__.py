"""The head, in words: from a director's spoken notes to a read-back of where every bowl lies."""
