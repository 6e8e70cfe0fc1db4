"""TOML files: their values, the place of each, and what is said where the file is not TOML."""
