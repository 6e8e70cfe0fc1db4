"""The papers of an order: the sheet to send, a list, and the pages on how sure it is."""
