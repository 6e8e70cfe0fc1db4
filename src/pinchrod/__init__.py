"""Sets out beaded face frames, from a joiner's words to the papers at the bench."""

VERSION = "0.1.0"
