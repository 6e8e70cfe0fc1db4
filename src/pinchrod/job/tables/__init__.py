"""Lists of frames: what a CSV file or a workbook says, cell by cell, and the rows made of it."""
