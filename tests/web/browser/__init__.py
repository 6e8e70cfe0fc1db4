"""Pages in a real browser. A package, so that its browser is shut before other tests begin."""
