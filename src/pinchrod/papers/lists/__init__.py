"""The cutting list and the list of fronts, on paper and for the office."""
