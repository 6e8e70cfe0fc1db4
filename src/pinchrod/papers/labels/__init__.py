"""A label for every single piece."""
