"""What a sheet is made of: marks, how wide words are, dimensions, and the judge of what lies on what."""
