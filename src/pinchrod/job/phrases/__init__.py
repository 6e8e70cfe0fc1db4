"""The layout phrase: its words, its grammar, its meaning, and what is said where it has none."""
