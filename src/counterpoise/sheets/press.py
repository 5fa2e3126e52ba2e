"""Data and a template become a PDF. Words of a document are data: they reach the page as text, never as markup."""

from __future__ import annotations

import json
from datetime import datetime
from importlib.resources import as_file, files
from typing import Any

from counterpoise.errors import Fault


def print_pdf(template: str, data: dict[str, Any], when: datetime) -> bytes:
    """A PDF with the fonts of this package and nothing of the machine; equal input gives equal bytes.

    Args:
        template: name in `templates`, without `.typ`.
        data: what the template reads; anything JSON holds.
        when: the date the file bears; with a time zone.

    Raises:
        Fault: the template and its data do not agree.
    """
    import typst

    here = files("counterpoise.sheets")
    text = here.joinpath("templates", f"{template}.typ").read_bytes()
    with as_file(here.joinpath("fonts")) as fonts:
        press = typst.Compiler(
            input=text, font_paths=typst.Fonts(include_system_fonts=False, font_paths=[str(fonts)]),
            sys_inputs={"data": json.dumps(data, ensure_ascii=True, allow_nan=False)},
        )  # fmt: skip
        try:
            made = press.compile(format="pdf", timestamp=int(when.timestamp()))
        except typst.TypstError as error:
            raise Fault(f"The sheet could not be printed: {error.message}.") from error
    if not isinstance(made, bytes):
        raise Fault("The sheet could not be printed: it came back in pieces.")
    return made
