"""What is only looked at: sheets to print."""

from counterpoise.sheets.bridge import bridge_sheet

__all__ = ["bridge_sheet"]
