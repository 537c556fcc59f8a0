"""A line held off a tube by two clamps on one bolt, or off a panel by one.

Reading order: `thickness` and `course` (how thick the line is, where it runs), `pair_clamps` (both clamps),
`closed`, `skew_pair`, `parallel_pair`, `on_panel`, `from_spacer` (places for the bolt), `fitting` and
`ranking` (which of them serve), `bolted` (the stack), `lay_out`.
"""
