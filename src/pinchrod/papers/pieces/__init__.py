"""Pieces drawn: a page for each distinct member, lying with its datum end to the left."""
