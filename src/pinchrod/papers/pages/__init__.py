"""A page's border, title block and tables, whatever it is about."""
