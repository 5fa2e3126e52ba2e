"""The look of a drawing: one sheet of rules for page and file, in two inks, day and dark. Colour never speaks alone."""

from __future__ import annotations

from collections.abc import Mapping

DAY: Mapping[str, str] = {
    "paper": "#faf8f2", "ink": "#1b1e23", "grey": "#5e6063", "hair": "#d3cec1", "accent": "#0b6e72", "over": "#b8360c",
    "unknown": "#5b4bb0", "band": "#f0eade", "brick": "#8d8878", "mark": "#e0e9e4",
}  # fmt: skip
DARK: Mapping[str, str] = {
    "paper": "#0c0b0a", "ink": "#e9dfcb", "grey": "#a79f8f", "hair": "#37322b", "accent": "#e3a44c", "over": "#ff8a5c",
    "unknown": "#a99bff", "band": "#1a1712", "brick": "#6f695c", "mark": "#241b10",
}  # fmt: skip
FACE = '"Atkinson Hyperlegible Next", "Counterpoise Signs", sans-serif'
RULES = """\
svg text { fill: var(--ink); font-size: 15px; }
svg .label { fill: var(--grey); font-size: 14px; }
svg .small { font-size: 15px; }
svg .tiny, svg .label.tiny { font-size: 13px; }
svg .halo { paint-order: stroke; stroke: var(--paper); stroke-width: 4px; stroke-linejoin: round; }
svg .on-band { paint-order: stroke; stroke: var(--band); stroke-width: 4px; stroke-linejoin: round; }
svg .spacer { stroke: var(--ink); stroke-width: 1.4; }
svg .end { text-anchor: end; }
svg .middle { text-anchor: middle; }
svg .number { font-size: 22px; font-weight: 700; }
svg .number.tight { font-size: 17px; }
svg .bricks { font-size: 17px; }
svg .bricks.tight { font-size: 15px; }
svg .count { font-size: 30px; font-weight: 700; }
svg .count.tight { font-size: 21px; }
svg .force { font-size: 19px; font-weight: 700; }
svg .strong-word { font-weight: 700; font-size: 16px; }
svg .told, svg .readout { font-size: 15px; paint-order: stroke; stroke: var(--paper); stroke-width: 5px;
  stroke-linejoin: round; }
svg .told.strong-word, svg .readout.strong-word { font-size: 18px; }
.word-over, svg .word-over { color: var(--over); fill: var(--over); font-weight: 700; }
.word-unknown, svg .word-unknown { color: var(--unknown); fill: var(--unknown); font-weight: 700; }
svg .number.word-out, svg .word-out { fill: var(--grey); }
svg .number.word-out { text-decoration: line-through; }
.word-accent, svg .word-accent { color: var(--accent); fill: var(--accent); font-weight: 600; }
svg .hair { stroke: var(--hair); stroke-width: 1.2; fill: none; }
svg .dashed { stroke: var(--hair); stroke-width: 1.2; stroke-dasharray: 5 5; }
svg .strong { stroke: var(--ink); stroke-width: 1.8; }
svg .band { fill: var(--band); }
svg .mark { fill: var(--mark); }
svg .hatching { stroke: var(--over); stroke-width: 2.6; }
svg .lift { stroke: var(--ink); stroke-width: 1.2; }
svg .batten { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
svg .cloth { fill: none; stroke: var(--ink); stroke-width: 1.3; stroke-linejoin: round; }
svg .lamp { fill: var(--paper); stroke: var(--ink); stroke-width: 1.2; }
svg .solid { stroke: var(--ink); stroke-width: 1.3; }
svg .lane:not(.is-over) .solid { fill: var(--band); }
svg .arbor { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
svg .stack, svg .brick { fill: var(--brick); }
svg .pipe-weight { fill: var(--ink); }
svg .struck { stroke: var(--ink); stroke-width: 2.2; }
svg .is-over :is(.lift, .batten, .cloth, .solid, .arbor, .lamp) { stroke: var(--over); }
svg .is-unknown :is(.lift, .batten, .cloth, .lamp, .arbor, .solid) { stroke: var(--unknown); stroke-dasharray: 2 3; }
svg .is-unknown .batten { stroke-dasharray: none; }
svg .is-out :is(.lift, .batten, .arbor, .struck) { stroke: var(--grey); }
svg .hit { fill: transparent; }
svg .lift-over { stroke: var(--over); stroke-width: 2.4; }
svg .lift-unknown { stroke: var(--unknown); stroke-dasharray: 2 3; stroke-width: 1.8; }
svg .lift-slack { stroke-dasharray: 1 6; }
svg .lift-within { stroke-width: 1.6; }
svg .pipe { fill: none; stroke: var(--ink); stroke-width: 4; stroke-linecap: round; stroke-linejoin: round; }
svg .pick { fill: var(--paper); stroke: var(--ink); stroke-width: 1.6; }
svg .pick-line { stroke: var(--accent); stroke-width: 1.6; }
svg .spread { fill: var(--accent); }
svg .load { fill: var(--band); stroke: var(--accent); stroke-width: 1.8; }
svg .load-word { font-weight: 600; font-size: 15px; }
svg .load-at { fill: var(--accent); font-weight: 600; }
svg .bar { stroke: var(--ink); stroke-width: 1.1; }
svg .bar-within, svg .bar-unknown { fill: var(--brick); }
svg .bar-unknown { fill: none; stroke: var(--unknown); stroke-dasharray: 2 3; stroke-width: 1.6; }
svg .bar-over { stroke: var(--over); }
svg .whisker { fill: none; stroke: var(--ink); stroke-width: 1.8; }
svg .limit { stroke: var(--accent); stroke-width: 2; stroke-dasharray: 6 4; }
svg .share { stroke: var(--ink); stroke-width: 3; fill: none; }
svg .room { fill: var(--band); stroke: var(--accent); stroke-width: 1.6; stroke-linejoin: round; }
svg .link { fill: none; stroke: var(--ink); stroke-width: 1.6; }
svg .link-over { stroke: var(--over); }
svg .link-unknown { stroke: var(--unknown); stroke-dasharray: 2 4; stroke-width: 2; }
svg .used-within, svg .used-unknown { fill: var(--brick); }
svg .likely { fill: var(--accent); fill-opacity: .22; }
svg .curve { fill: none; stroke: var(--ink); stroke-width: 2.2; }
svg .dot { fill: var(--accent); }
svg .seen { fill: none; stroke: var(--accent); stroke-width: 2; }
svg .plate { stroke: var(--accent); stroke-width: 3.5; }
"""


def sheet() -> str:
    """The rules for a page: the reader's own setting, else what was chosen on the page."""
    return "\n".join([
        f":root {{ color-scheme: light; {_inks(DAY)} }}",
        f"@media (prefers-color-scheme: dark) {{ :root {{ color-scheme: dark; {_inks(DARK)} }} }}",
        f':root[data-theme="day"] {{ color-scheme: light; {_inks(DAY)} }}',
        f':root[data-theme="dark"] {{ color-scheme: dark; {_inks(DARK)} }}',
        RULES,
        f"@media print {{ :root, :root[data-theme] {{ color-scheme: light; {_inks(DAY)} --paper: #ffffff; }} }}",
    ])  # fmt: skip


def ink_of(dark: bool) -> str:
    """The rules that a drawing takes with it into a file of its own."""
    inks = DARK if dark else DAY
    return f"svg {{ {_inks(inks)} background: {inks['paper']}; font-family: {FACE}; }}\n{RULES}"


def _inks(inks: Mapping[str, str]) -> str:
    return " ".join(f"--{name}: {colour};" for name, colour in inks.items())
