"""Lists of frames or boards: what a CSV file or a workbook says, cell by cell, and the rows made of it."""
