"""The plan for machines, and its schema."""
