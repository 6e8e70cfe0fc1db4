"""Cards for the machines: one a step, to be read at arm's length and ticked as the work goes through."""
