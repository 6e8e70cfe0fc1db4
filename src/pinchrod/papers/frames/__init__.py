"""Frames drawn: elevations with their dimensions, a page each, true-size drawings, full-size rods."""
