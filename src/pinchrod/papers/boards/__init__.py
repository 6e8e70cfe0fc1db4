"""The papers of the break-out: boards as chalked, lists for both saws, and what is left for the rack."""
