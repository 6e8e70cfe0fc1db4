"""Marks put into a file: PDF, SVG, DXF, workbooks, and QR codes as squares."""
