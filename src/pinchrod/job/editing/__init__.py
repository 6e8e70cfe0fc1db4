"""What the joiner said, said otherwise: frames changed, added and taken out, from files to files."""
